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

/** Calibrations at some sizes of cells, m: in between straight by the logarithm of the size, beyond as at the nearest. */
interface Calibration {
  readonly cell: Metres;
  /** How much more than what shows a lowest place is lifted and a highest lowered, in standard deviations of all places. */
  readonly low: Ratio;
  readonly high: Ratio;
  /** Standard deviation of that among such places, in the same. */
  readonly spread: Ratio;
}

/**
 * Valley floors are sharper than ridges, and the larger the cells the more of either lies within one. From made ground that is
 * rough at every scale and from averaged lidar, by `npm run bench -- height-bands`; not published.
 */
const CALIBRATED: readonly Calibration[] = [
  { cell: 5, low: 0.5, high: 0.3, spread: 0.9 },
  { cell: 10, low: 1.1, high: 0.7, spread: 0.9 },
  { cell: 30, low: 1.4, high: 1, spread: 0.9 },
];

/** The calibration for a size of cells. */
function calibrationFor(cell: Metres): Calibration {
  const [finest, ...coarser] = CALIBRATED;
  if (finest === undefined) throw new Error('calibrations of averaging: found none, expected one or more');
  let below = finest;
  for (const above of coarser) {
    if (cell < above.cell) {
      const share = Math.max(0, Math.log(cell / below.cell) / Math.log(above.cell / below.cell));
      const at = (name: 'low' | 'high' | 'spread'): Ratio => below[name] + share * (above[name] - below[name]);
      return { cell, low: at('low'), high: at('high'), spread: at('spread') };
    }
    below = above;
  }
  return below;
}

/**
 * What averaging over cells does to a height. Anywhere: 0.85 times the smoothing that shows there, with the variance that leaves of
 * all places' together. At a place chosen for being the lowest or the highest around: so many standard deviations more, up or down.
 */
export function averagingError(place: AveragedPlace, cell: Metres, landform: Landform | null = null): AveragingError {
  const { smoothing, averaging } = place;
  if (averaging === undefined) return { likely: smoothing, spread: Math.abs(smoothing) };
  if (landform === null) {
    const left = averaging ** 2 - (SHOWN * smoothing) ** 2;
    return { likely: SHOWN * smoothing, spread: Math.sqrt(Math.max(left, (LEAST_LEFT * averaging) ** 2)) };
  }
  const { low, high, spread } = calibrationFor(cell);
  const chosen = landform === 'low' ? low : -high;
  return { likely: SHOWN * smoothing + chosen * averaging, spread: spread * averaging };
}

/** Share of the spread that is left however much of it shows. Calibration. */
const LEAST_LEFT: Ratio = 0.6;

/** How many times the averaging's spread over a cell the slope scatters about that of the grid. Calibration. */
const SLOPE_SCATTER: Ratio = 1.9;

/** Slope that a misplaced point meets, rise over run: the grid's own, and what is rougher than its cells. */
export function roughSlope({ slope, averaging = 0 }: AveragedPlace & { readonly slope: Ratio }, cell: Metres): Ratio {
  return Math.hypot(slope, (SLOPE_SCATTER * averaging) / cell);
}
