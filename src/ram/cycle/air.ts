import type { CubicMetres, Metres, Ratio } from '../../units/quantity.ts';

/** Air pressure at sea level as a head of water, m. Source: ISO 2533:1975, 101 325 Pa. */
export const atmosphericHead: Metres = 10.33;

/** n: air that is squeezed once a beat keeps part of its heat. Source: Wylie & Streeter 1993, 1.2 (from memory). */
export const polytropicExponent: Ratio = 1.2;

/**
 * Work against the fall, in head times volume, and the volume given way, when air is squeezed from a low head to a high one:
 * W = ((h + p)V_h − (l + p)V_l)/(n − 1) − (H + p)(V_l − V_h), V(x) = V_H ((H + p)/(x + p))^(1/n).
 *
 * V_H volume at the fall H; l, h low and high head, m; p air pressure, m; n polytropic exponent. Source: polytropic law.
 */
export function airWork(
  volume: CubicMetres,
  at: { readonly still: Metres; readonly low: Metres; readonly high: Metres },
): { readonly work: number; readonly volume: CubicMetres } {
  const [still, low, high] = [at.still + atmosphericHead, at.low + atmosphericHead, at.high + atmosphericHead];
  const loose = volume * (still / low) ** (1 / polytropicExponent);
  const tight = volume * (still / high) ** (1 / polytropicExponent);
  const squeezed = (high * tight - low * loose) / (polytropicExponent - 1);
  return { work: Math.max(0, squeezed - still * (loose - tight)), volume: loose - tight };
}
