import type { Dimension } from './unit.ts';

/** How quantities are shown; either can be typed at any time. */
export type UnitSystem = 'metric' | 'us';

/**
 * What a number is about, which decides its units and its digits.
 *
 * SI values: height, length and bore in m, flow in m³/s, daily volume in m³ a day, volume in m³, pressure in Pa, velocity
 * in m/s, duration in s, temperature in °C, mass in kg, share from 0 to 1, ratio and count as they are.
 */
export type QuantityKind =
  | 'height'
  | 'length'
  | 'bore'
  | 'flow'
  | 'daily-volume'
  | 'volume'
  | 'pressure'
  | 'ratio'
  | 'share'
  | 'velocity'
  | 'duration'
  | 'temperature'
  | 'mass'
  | 'count';

interface KindAbout {
  readonly dimension: Dimension;
  /** What a reader of a refusal is told to write. */
  readonly expected: string;
}

export const KINDS: Readonly<Record<QuantityKind, KindAbout>> = {
  height: { dimension: 'length', expected: 'a height with its unit, such as 5 m, 16.4 ft or 8 ft 3 in' },
  length: { dimension: 'length', expected: 'a length with its unit, such as 120 m, 400 ft or 8 ft 3 in' },
  bore: { dimension: 'length', expected: 'a bore with its unit, such as 16 mm, 0.622 in or 1-1/4 in' },
  flow: { dimension: 'flow', expected: 'a flow with its unit, such as 12 L/min, 3 gal/min or 0.7 m³/h' },
  'daily-volume': { dimension: 'flow', expected: 'a volume a day with its unit, such as 2400 L/day or 600 gal/day' },
  volume: { dimension: 'volume', expected: 'a volume with its unit, such as 10 L, 5 gal or 2 m³' },
  pressure: {
    dimension: 'pressure',
    expected: 'a pressure with its unit, such as 6 bar, 400 kPa, 150 psi or 20 m head',
  },
  ratio: { dimension: 'number', expected: 'a plain number, such as 0.5 or 7' },
  share: { dimension: 'share', expected: 'a share, such as 35 % or 0.35' },
  velocity: { dimension: 'velocity', expected: 'a velocity with its unit, such as 1.5 m/s or 5 ft/s' },
  duration: { dimension: 'time', expected: 'a time with its unit, such as 12.5 s, 4 min, 6 h or 3 days' },
  temperature: { dimension: 'temperature', expected: 'a temperature with its unit, such as 10 °C or 50 °F' },
  mass: { dimension: 'mass', expected: 'a weight with its unit, such as 400 g, 1.2 kg or 14 oz' },
  count: { dimension: 'number', expected: 'a whole number, such as 40' },
};
