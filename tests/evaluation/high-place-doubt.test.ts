import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Estimate } from '../../src/evaluation/statistics/estimate.ts';
import type { GroundLine, HeightAccuracy, LineDoubt } from '../../src/terrain/grid/ground.ts';
import { madeGround, perfect } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** 90th percentile of the normal distribution. Tables of the normal distribution. */
const Z90 = 1.2815515655;

/** A DEM that is wrong only by where things were drawn and by what its cells smooth away. */
const placedBy = (placement: number, smoothingDoubt = 2): HeightAccuracy => ({ ...perfect, placement, smoothingDoubt });

/** A delivery line of 300 m over a top of 140 m half way, that falls 1 in 1 to either side. */
const over = (share: number) => Math.max(100 + 23 * share, 140 - Math.abs(share - 0.5) * 300);

function governingLift(accuracy: HeightAccuracy, doubt: (line: GroundLine) => LineDoubt): Estimate {
  const made = { heights: workingHeights, lengths: workingLengths, accuracy, bumps: { delivery: over } };
  const ground = madeGround(workingPlan, made);
  // The pump's own place is on level ground here, so that the summit alone is in doubt.
  const points = new Map([...ground.points].map(([id, p]) => [id, { ...p, slope: 0 }]));
  const lines = new Map(
    [...ground.lines].map(([id, line]) => [id, id === 'delivery' ? { ...line, doubt: doubt(line) } : line]),
  );
  const lift = evaluate(workingPlan, { ...ground, points, lines }).tanks[0]?.line?.governingLift;
  if (lift === undefined) throw new Error('found no governing lift, expected one');
  return lift;
}

const all = (line: GroundLine, slope: number, smoothing: number): LineDoubt => ({
  slope: new Float32Array(line.at.length).fill(slope),
  smoothing: new Float32Array(line.at.length).fill(smoothing),
});

const halfWidth = ({ low, high }: Estimate) => (high - low) / 2;

describe('the height of a summit that a line crosses', () => {
  test('is as doubtful as that of a point there: by slope and placement, and by what the cells smooth away', () => {
    const exact = governingLift(placedBy(1), (line) => all(line, 0, 0));
    // 140 m above the waste valve at 100.2 m.
    expect(exact).toEqual({ low: exact.likely, likely: exact.likely, high: exact.likely });
    expect(exact.likely).toBeCloseTo(39.8, 9);
    // The line falls 1 in 1 to either side; the ground falls 1.25 in 1, so 0.75 across the line: (0.75 × 0.4)² = 0.3².
    const steep = governingLift(placedBy(0.4), (line) => all(line, 1.25, 0));
    expect(halfWidth(steep)).toBeCloseTo(Z90 * 0.3, 5);
    // Twice the smoothing of 0.2 m: 0.4 m; with the slope √(0.3² + 0.4²) = 0.5 m.
    const ridge = governingLift(placedBy(0.4), (line) => all(line, 1.25, -0.2));
    expect(halfWidth(ridge)).toBeCloseTo(Z90 * 0.5, 5);
    expect(ridge.likely).toBeCloseTo(39.8, 9);
  });

  test('is not in doubt by a shift along the line, which meets the same summit', () => {
    const along = governingLift(placedBy(0.4), (line) => all(line, 1, 0));
    expect(halfWidth(along)).toBeCloseTo(0, 3);
  });

  test('is that of the class of the file it comes from', () => {
    const other: HeightAccuracy = { ...placedBy(2), id: 'coarser', cell: 10 };
    const doubt = (line: GroundLine): LineDoubt => ({
      ...all(line, 1.25, 0),
      other: { mark: new Uint16Array(line.at.length).fill(2), accuracy: new Map([[2, other]]) },
    });
    // 0.75 across the line, placed to 2 m.
    expect(halfWidth(governingLift(placedBy(0.4), doubt))).toBeCloseTo(Z90 * 1.5, 4);
  });
});
