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
  /** What it is called, with its article. */
  readonly what: string;
  /** How a value is written, in either system of units. */
  readonly examples: Readonly<Record<UnitSystem, string>>;
}

export const KINDS: Readonly<Record<QuantityKind, KindAbout>> = {
  height: {
    dimension: 'length',
    what: 'a height with its unit',
    examples: { metric: '5 m or 40 cm', us: '16.4 ft or 8 ft 3 in' },
  },
  length: {
    dimension: 'length',
    what: 'a length with its unit',
    examples: { metric: '120 m or 1.2 km', us: '400 ft or 200 yd' },
  },
  bore: {
    dimension: 'length',
    what: 'a bore with its unit',
    examples: { metric: '16 mm or 2.5 cm', us: '0.622 in or 1-1/4 in' },
  },
  flow: {
    dimension: 'flow',
    what: 'a flow with its unit',
    examples: { metric: '12 L/min or 0.7 m³/h', us: '3 gal/min or 900 gal/day' },
  },
  'daily-volume': {
    dimension: 'flow',
    what: 'a volume a day with its unit',
    examples: { metric: '2400 L/day', us: '600 gal/day' },
  },
  volume: {
    dimension: 'volume',
    what: 'a volume with its unit',
    examples: { metric: '10 L or 2 m³', us: '5 gal or 2 qt' },
  },
  pressure: {
    dimension: 'pressure',
    what: 'a pressure with its unit',
    examples: { metric: '6 bar or 20 m head', us: '150 psi or 60 ft head' },
  },
  ratio: { dimension: 'number', what: 'a plain number', examples: { metric: '0.5 or 7', us: '0.5 or 7' } },
  share: { dimension: 'share', what: 'a share', examples: { metric: '35 % or 0.35', us: '35% or 0.35' } },
  velocity: {
    dimension: 'velocity',
    what: 'a velocity with its unit',
    examples: { metric: '1.5 m/s', us: '5 ft/s' },
  },
  duration: {
    dimension: 'time',
    what: 'a time with its unit',
    examples: { metric: '12.5 s, 1:10 or 3 days', us: '12.5 s, 1:10 or 3 days' },
  },
  temperature: {
    dimension: 'temperature',
    what: 'a temperature with its unit',
    examples: { metric: '10 °C', us: '50 °F' },
  },
  mass: {
    dimension: 'mass',
    what: 'a weight with its unit',
    examples: { metric: '400 g or 1.2 kg', us: '14 oz or 2 lb 4 oz' },
  },
  count: { dimension: 'number', what: 'a whole number', examples: { metric: '40', us: '40' } },
};

/** What a reader is told to write: in the units that he is shown, or in both where these are not known. */
export function expectedOf(kind: QuantityKind, units: UnitSystem | null): string {
  const { what, examples } = KINDS[kind];
  const shown =
    units === null && examples.metric !== examples.us
      ? `${examples.metric}, ${examples.us}`
      : examples[units ?? 'metric'];
  return `${what}, such as ${shown}`;
}
