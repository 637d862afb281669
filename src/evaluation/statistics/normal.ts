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

/**
 * The value that a standard normal variable stays below with a given chance, 0 < p < 1: inverse of `normalChance`.
 *
 * Rational approximation of M. J. Wichura, Algorithm AS 241, Applied Statistics 37, 1988, routine PPND7 (from memory);
 * relative error about 1e-7.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (
      q *
      rational(r, [3.3871327179, 50.434271938, 159.29113202, 59.10937472], [1, 17.895169469, 78.757757664, 67.1875636])
    );
  }
  const tail = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const z =
    tail <= 5
      ? rational(tail - 1.6, [1.4234372777, 2.75681539, 1.3067284816, 0.17023821103], [1, 0.7370016425, 0.12021132975])
      : rational(
          tail - 5,
          [6.657905115, 3.081226386, 0.42868294337, 0.017337203997],
          [1, 0.24197894225, 0.012258202635],
        );
  return q < 0 ? -z : z;
}

/** Quotient of two polynomials, coefficients from the constant term up. */
function rational(x: number, above: readonly number[], below: readonly number[]): number {
  const at = (coefficients: readonly number[]) => coefficients.reduceRight((sum, c) => sum * x + c, 0);
  return at(above) / at(below);
}
