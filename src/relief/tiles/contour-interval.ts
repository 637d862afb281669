import type { Metres, Ratio } from '../../units/quantity.ts';

export type HeightUnit = 'metre' | 'foot';

/** Steps between contour lines that map readers know, in the unit shown. */
const STEPS: Readonly<Record<HeightUnit, readonly number[]>> = {
  metre: [1, 2, 5, 10, 20, 50, 100, 200, 500],
  foot: [2, 5, 10, 20, 50, 100, 200, 500, 1000],
};

/** Lines between two stressed and labelled ones, by step, so that labels are round: 5, 10, 25, 50 … */
const INDEX_EVERY = 5;

/** International foot. Source: NIST Special Publication 811, 2008, appendix B.6. */
const METRES_PER_FOOT: Metres = 0.3048;

/** Distance between two lines on ground of the steep quarter, as shown, CSS pixels. */
const CLEARANCE = 8.5;

export interface IntervalQuestion {
  readonly unit: HeightUnit;
  /** Ground length of a CSS pixel, m. */
  readonly pixel: Metres;
  /** Slope that three quarters of the ground stay below. */
  readonly steep: Ratio;
  /** Smaller steps would show noise of the DEM, m. */
  readonly finest: Metres;
}

export interface ContourInterval {
  /** Step in the unit shown. */
  readonly step: number;
  /** Metres to one unit shown. */
  readonly unitMetres: Metres;
  readonly indexEvery: number;
}

/** The smallest usual step whose lines keep their distance on the steep quarter of the ground. */
export function contourInterval(question: IntervalQuestion): ContourInterval {
  const unitMetres: Metres = question.unit === 'foot' ? METRES_PER_FOOT : 1;
  const least = Math.max(question.finest, CLEARANCE * question.pixel * question.steep);
  const steps = STEPS[question.unit];
  const step = steps.find((candidate) => candidate * unitMetres >= least) ?? steps[steps.length - 1] ?? 1;
  return { step, unitMetres, indexEvery: INDEX_EVERY };
}
