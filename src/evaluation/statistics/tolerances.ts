import type { QuantityKind } from '../../units/kind.ts';

/** How far one input may lie from what the plan or the handbook says: half of a 95 % interval. */
export interface Tolerance {
  /** A share of the value, or a length, by its kind. */
  readonly kind: Extract<QuantityKind, 'share' | 'length' | 'height' | 'ratio'>;
  readonly value: number;
  readonly about: string;
}

const tolerance = (kind: Tolerance['kind'], value: number, about: string): Tolerance => ({ kind, value, about });

/**
 * Spreads of inputs that come with none of their own: not the heights (by their class), the source (by its readings), the
 * efficiency (by its band) or the bore of a standard pipe (by its standard). Common practice, no source.
 */
export const TOLERANCES = {
  winding: tolerance('share', 0.03, 'length of a line as it is laid over the length drawn: a pipe winds on the ground'),
  ends: tolerance('length', 1, 'both ends of a line together, which are set by eye from a map'),
  ownBore: tolerance('share', 0.02, 'bore of a pipe that the user describes, measured or read off'),
  ownRoughness: tolerance('ratio', 2, 'roughness of a pipe that the user describes: the factor up and down'),
  wave: tolerance(
    'share',
    0.2,
    'rise of the pressure wave: the velocity at which the waste valve shuts is a rule or a model, and plastics differ in stiffness',
  ),
  intake: tolerance('share', 0.1, 'what a pump takes, against its sheet or its model'),
  valve: tolerance('share', 0.1, 'limits of a waste valve, which go with its weight and its losses'),
  beat: tolerance('share', 0.15, 'beat of a ram by its parts: the model is not validated against a measured one'),
  tank: tolerance('share', 0.05, 'what a tank holds between its outlet and its overflow, against its name'),
  weather: tolerance('height', 0.3, 'pressure of the air at a height, as a head of water: the weather’s share'),
} as const satisfies Readonly<Record<string, Tolerance>>;
