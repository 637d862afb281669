import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { standpipeSpot } from '../../src/evaluation/evaluate/standpipe-spot.ts';
import { moveStandpipeAlong } from '../../src/plan/edits/edit-standpipe.ts';
import { madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
/** Lengths on even slopes: 30 m level and 3.4 m down, 60 m level and 1.1 m down. */
const drive = Math.hypot(30, 3.4);
const supply = Math.hypot(60, 1.1);
const at = (id: string) => workingPlan.points.find((p) => p.id === id)?.position ?? { lon: 0, lat: 0 };

describe('a place for the standpipe by the length of the drive pipe', () => {
  test('half the drive pipe up from the pump lies half way between pump and standpipe', () => {
    const spot = standpipeSpot(workingPlan, ground, drive / 2);
    expect(spot?.on).toBe('drive');
    expect(spot?.position.lon).toBeCloseTo((at('ram').lon + at('standpipe').lon) / 2, 9);
  });

  test('the drive pipe and a third of the supply line lies a third of the way up to the spring', () => {
    const spot = standpipeSpot(workingPlan, ground, drive + supply / 3);
    expect(spot?.on).toBe('supply');
    expect(spot?.position.lon).toBeCloseTo(at('standpipe').lon + (at('spring').lon - at('standpipe').lon) / 3, 9);
  });

  test('there is none beyond either end of the way, nor before both lines are drawn', () => {
    expect(standpipeSpot(workingPlan, ground, 0)).toBeNull();
    expect(standpipeSpot(workingPlan, ground, drive + supply + 1)).toBeNull();
    const routes = workingPlan.routes.filter(({ role }) => role !== 'supply');
    expect(standpipeSpot({ ...workingPlan, routes }, ground, 10)).toBeNull();
  });

  test('anywhere on the way, the longer the drive pipe the nearer to the spring', () => {
    const length = fc.integer({ min: 5, max: 890 }).map((n) => n / 10);
    fc.assert(
      fc.property(length, length, (one, other) => {
        const places = [one, other].map((l) => standpipeSpot(workingPlan, ground, l)?.position.lon ?? Number.NaN);
        const [first = 0, second = 0] = places;
        expect(Math.sign(first - second)).toBe(-Math.sign(one - other) + 0);
      }),
    );
  });
});

describe('a standpipe moved along the drawn way', () => {
  test('leaves the way as it was drawn: the drive pipe gains the bend that the supply line loses', () => {
    const bend = { lon: -40 + 30 / 88_000, lat: 38.0001 };
    const routes = workingPlan.routes.map((r) =>
      r.id === 'supply' ? { ...r, vertices: [at('spring'), bend, at('standpipe')] } : r,
    );
    const position = { lon: -40 + 15 / 88_000, lat: 38.00005 };
    const moved = moveStandpipeAlong({ ...workingPlan, routes }, 'standpipe', { on: 'supply', vertex: 0, position });
    expect(moved.ok).toBe(true);
    if (!moved.ok) return;
    const { plan } = moved.value;
    const near = (places: readonly { lon: number; lat: number }[]) => places.map(({ lon }) => Number(lon.toFixed(7)));
    const of = (id: string) => near(plan.routes.find((r) => r.id === id)?.vertices ?? []);
    expect(of('supply')).toEqual(near([at('spring'), position]));
    expect(of('drive')).toEqual(near([position, bend, at('standpipe'), at('ram')]));
  });

  test('a plan without a drive pipe is left alone', () => {
    const routes = workingPlan.routes.filter(({ role }) => role !== 'drive');
    const place = { on: 'supply', vertex: 0, position: at('spring') } as const;
    expect(moveStandpipeAlong({ ...workingPlan, routes }, 'standpipe', place).ok).toBe(false);
  });

  test('stands where the evaluation said it is best', () => {
    const best = evaluate(workingPlan, ground).standpipe?.places?.best ?? null;
    expect(best).not.toBeNull();
    expect(standpipeSpot(workingPlan, ground, best?.driveLength ?? 0)).not.toBeNull();
  });
});
