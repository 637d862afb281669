/** Distance from the middle of a normal distribution to its 90th percentile, in standard deviations. Tables of the normal distribution. */
export const Z90 = 1.2815515655446004;

/** Half width of a 95 % interval in standard deviations. Tables of the normal distribution. */
export const Z975 = 1.959963984540054;

/**
 * Chance that a standard normal variable stays at or below z.
 *
 * Complementary error function by the rational Chebyshev fit of W. H. Press et al., Numerical Recipes (Cambridge, 1992),
 * section 6.2; error below 1.2e-7 everywhere.
 */
export function normalChance(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.5 * x);
  const series = [
    1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223, 0.17087277,
  ];
  const sum = series.reduceRight((tail, c) => c + t * tail, 0);
  const upper = 0.5 * t * Math.exp(-x * x - 1.26551223 + t * sum);
  return z >= 0 ? 1 - upper : upper;
}
