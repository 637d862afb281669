import type { Metres, Pascals } from '../units/quantity.ts';
import { GRAVITY } from './gravity.ts';
import type { Water } from './water.ts';

/**
 * Air pressure of the standard atmosphere.
 *
 * p = 101 325 (1 − 0.0065 H / 288.15)^(g / (R 0.0065))
 *
 * H geopotential altitude, m (within 0.03 % of a height above sea level here); R 287.05287 J/(kg K). Range −2000 to 11 000 m.
 * Source: ISO 2533:1975, Standard atmosphere.
 */
export function airPressure(altitude: Metres): Pascals {
  if (!(altitude >= -2000 && altitude <= 11_000)) {
    throw new RangeError(`found altitude ${altitude} m, expected -2000 to 11000 m`);
  }
  const cooling = 1 - (LAPSE_RATE * altitude) / SEA_LEVEL_TEMPERATURE;
  return SEA_LEVEL_PRESSURE * cooling ** (GRAVITY / (GAS_CONSTANT * LAPSE_RATE));
}
const SEA_LEVEL_PRESSURE = 101_325;
const SEA_LEVEL_TEMPERATURE = 288.15;
const LAPSE_RATE = 0.0065;
const GAS_CONSTANT = 287.05287;

/**
 * How far water can stand below atmospheric pressure before it boils: the highest a full pipe can lie above its water line.
 *
 * h = (p_air − p_vapour) / (ρ g)
 *
 * Pressures absolute, Pa; h m. A working limit keeps well inside it, since dissolved air comes out earlier.
 * Source: hydrostatics.
 */
export function vapourHead(at: { readonly airPressure: Pascals; readonly water: Water }): Metres {
  return (at.airPressure - at.water.vapourPressure) / (at.water.density * GRAVITY);
}
