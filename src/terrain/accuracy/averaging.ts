import type { Metres, Ratio } from '../../units/quantity.ts';

/** Where a point was put on purpose: springs and pumps at the bottom of the ground around them, tanks on top of it. */
export type Landform = 'low' | 'high';

/** What is known of what averaging does to the height of a place, as `GroundPoint` has it. */
export interface AveragedPlace {
  /** What the curvature of the grid shows at the place itself, m. */
  readonly smoothing: Metres;
  /** Standard deviation of what averaging does around there, m; left out where too little is known. */
  readonly averaging?: Metres;
}

/** How far averaging lifts a height, m: the likely amount and its standard deviation. */
export interface AveragingError {
  readonly likely: Metres;
  readonly spread: Metres;
}

/** Below this size cells show the ground that a plan is about; their averaging is part of the class. Calibration. */
export const AVERAGING_CELL: Metres = 2.5;

/** Share of the smoothing that shows at a place which is there: the rest is chance of the cells around. Calibration. */
const SHOWN: Ratio = 0.85;

/** Calibrations at two sizes of cells, m: in between straight by the logarithm of the size, beyond as at the nearer. */
interface Calibration {
  readonly cell: Metres;
  /** How far a lowest and a highest place of the ground around are lifted and lowered, in standard deviations of all places. */
  readonly low: Ratio;
  readonly high: Ratio;
  /** Standard deviation of that among such places, in the same. */
  readonly spread: Ratio;
}

/**
 * Valley floors are sharper than ridges, and the larger the cells the more of either lies within one. From made ground that is
 * rough at every scale and from averaged lidar, by `npm run bench -- height-bands`; not published.
 */
const FINE: Calibration = { cell: 10, low: 1.85, high: 1.35, spread: 0.85 };
const COARSE: Calibration = { cell: 30, low: 2.2, high: 1.7, spread: 0.63 };

/**
 * What averaging over cells does to a height. Anywhere: 0.85 times the smoothing that shows there, with the variance that leaves of
 * all places' together. At a place chosen for being the lowest or the highest around: so many standard deviations up or down.
 */
export function averagingError(place: AveragedPlace, cell: Metres, landform: Landform | null = null): AveragingError {
  const { smoothing, averaging } = place;
  if (averaging === undefined) return { likely: smoothing, spread: Math.abs(smoothing) };
  if (landform === null) {
    const left = averaging ** 2 - (SHOWN * smoothing) ** 2;
    return { likely: SHOWN * smoothing, spread: Math.sqrt(Math.max(left, (LEAST_LEFT * averaging) ** 2)) };
  }
  const share = Math.min(1, Math.max(0, Math.log(cell / FINE.cell) / Math.log(COARSE.cell / FINE.cell)));
  const at = (name: 'low' | 'high' | 'spread'): Ratio => FINE[name] + share * (COARSE[name] - FINE[name]);
  const likely = landform === 'low' ? at('low') * averaging : -at('high') * averaging;
  return { likely, spread: at('spread') * averaging };
}

/** Share of the spread that is left however much of it shows. Calibration. */
const LEAST_LEFT: Ratio = 0.6;
