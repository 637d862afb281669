import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { turningsOf } from '../../src/evaluation/site/extrema.ts';
import { browsOf } from '../../src/evaluation/site/hull-corners.ts';
import { pipeRow } from '../../src/handbook/pipe-rows.ts';
import { waterAt } from '../../src/hydraulics/water.ts';
import { solveByReference } from '../hydraulics/reference-solver.ts';
import { madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const viscosity = waterAt(workingPlan.waterTemperature).viscosity;

/** Part of the delivery and gravity pipe of the plan: friction along its length, and its share of entrance and exit. */
function partOfPipe(ends: { readonly from: string; readonly to: string }, length: number, share: number) {
  const row = pipeRow('pe100-sdr11-25');
  return { ...ends, length: length * share, bore: row?.bore ?? 0, wall: row?.roughness ?? 0, k: 1.5 * share };
}

/** EPANET 2.2 takes Swamee and Jain's friction factor. */
const WITHIN = 0.02;

describe('ground that holds the water up without rising', () => {
  test('lets no more through a bench before a plunge than the head over the bench drives', async () => {
    const bench = (share: number) => (share <= 0.6 ? 123 - share : 122.4 - (share - 0.6) * 80);
    const ground = madeGround(workingPlan, {
      heights: { ...workingHeights, trough: bench(1) },
      lengths: { ...workingLengths, gravity: 300 },
      bumps: { gravity: bench },
    });
    const result = evaluate(workingPlan, ground);
    const slope = result.lines.find((l) => l.id === 'gravity')?.slope ?? 0;
    const reference = await solveByReference({
      law: { kind: 'D-W', viscosity },
      levels: { tank: 123.2, brow: 122.4 },
      pipes: { gravity: partOfPipe({ from: 'tank', to: 'brow' }, slope, 0.6) },
    });
    const flow = result.troughs[0]?.flow?.likely ?? 0;
    expect(Math.abs(flow / reference.flow('gravity') - 1)).toBeLessThan(WITHIN);
    // The pipe falls all the way, so that air leaves it by its upper end. Common practice, no source.
    expect(result.findings.find((f) => f.code === 'gravity-air')).toBeUndefined();
  });

  test('takes the loss of a level crest up to its far end, where the water runs on by itself', async () => {
    // Up to 140 m within a fifth of the way, level to four fifths, then down to the tank at 123 m.
    const crest = (share: number) =>
      share < 0.2 ? 100 + share * 200 : share <= 0.8 ? 140 : 140 - ((share - 0.8) / 0.2) * 17;
    const lengths = { ...workingLengths, delivery: 1500 };
    const made = madeGround(workingPlan, { heights: workingHeights, lengths, bumps: { delivery: crest } });
    const result = evaluate(workingPlan, made);
    const line = result.tanks[0]?.line;
    const slope = result.lines.find((l) => l.id === 'delivery')?.slope ?? 0;
    const reference = await solveByReference({
      law: { kind: 'D-W', viscosity },
      levels: { crest: 140 },
      nodes: { ram: { elevation: 100.2, drawn: -((line?.ifRunningPerDay?.likely ?? 0) / 86_400) } },
      pipes: { delivery: partOfPipe({ from: 'ram', to: 'crest' }, slope, 0.8) },
    });
    expect(line?.governedBy).toEqual({ summit: expect.closeTo(1200, 0) });
    expect(line?.friction).toBeGreaterThan(0.3);
    expect(Math.abs((line?.friction ?? 0) / (reference.pressure('ram') - 39.8) - 1)).toBeLessThan(WITHIN);
  });

  test('leaves alone what a shallow trench takes away, and a slope that only steepens towards a higher end', () => {
    const at = Float64Array.from({ length: 11 }, (_, i) => 10 * i);
    const known = new Uint8Array(11).fill(1);
    const brows = (heights: readonly number[]) =>
      browsOf({ at, height: Float64Array.from(heights), known, prominence: 0.3, summits: [], most: 6 });
    expect(brows([10, 9.2, 8.2, 7.2, 6.2, 5.2, 4.1, 3, 2, 1, 0])).toEqual([]);
    expect(brows([0, 0.1, 0.4, 0.9, 1.6, 2.5, 3.6, 4.9, 6.4, 8.1, 10])).toEqual([]);
    expect(brows([10, 9.9, 9.8, 9.7, 9.6, 9.5, 7.6, 5.7, 3.8, 1.9, 0])).toEqual([
      { sample: 5, height: 9.5, summit: false },
    ]);
  });

  test('is cleared everywhere, but for a trench, by a falling line that clears the places found and both ends', () => {
    const height = fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { minLength: 3, maxLength: 60 });
    fc.assert(
      fc.property(height, fc.double({ min: 0, max: 60, noNaN: true }), (heights, loss) => {
        const at = Float64Array.from(heights, (_, i) => i);
        const known = new Uint8Array(heights.length).fill(1);
        const prominence = 1;
        const summits = turningsOf({ height: heights, known, prominence }).flatMap((t) =>
          t.kind === 'summit' ? [t.sample] : [],
        );
        const found = browsOf({ at, height: heights, known, prominence, summits, most: 100 });
        const end = heights.length - 1;
        const gradient = loss / end;
        const places = [...found, ...[0, end].map((sample) => ({ sample, height: heights[sample] ?? 0 }))];
        const start = Math.max(...places.map((p) => p.height + gradient * p.sample));
        const standsOut = heights.map((z, i) => z - (start - gradient * i));
        // A trench where nothing stands out, and another where the start is dug in.
        expect(Math.max(...standsOut)).toBeLessThanOrEqual(2 * prominence + 1e-9);
      }),
      { numRuns: 2000 },
    );
  });
});
