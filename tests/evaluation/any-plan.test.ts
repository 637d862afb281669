import fc from 'fast-check';
import { expect, test } from 'vitest';
import { evaluate, evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { assessmentJson } from '../../src/report/tables/assessment-json.ts';
import { assessmentText } from '../../src/report/tables/assessment-text.ts';
import { anyCase, anyPlanOf } from './any-plans.ts';
import { madeGround } from './made-ground.ts';
import { litresPerMinute, route, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** Paths of numbers that no reader could use, and of spreads out of order. */
function faults(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Math.abs(value) < 1e100 ? [] : [`${path} is ${value}`];
  if (value === null || typeof value !== 'object') return [];
  const spread = value as { low?: number; likely?: number; high?: number };
  const { low, likely, high } = spread;
  const ordered =
    low === undefined || likely === undefined || high === undefined || (low <= likely + 1e-9 && likely <= high + 1e-9);
  return [
    ...(ordered ? [] : [`${path} is out of order: ${JSON.stringify(value)}`]),
    ...Object.entries(value).flatMap(([key, part]) => faults(part, `${path}.${key}`)),
  ];
}

const meadow = {
  id: 'meadow',
  role: 'trough',
  name: 'meadow',
  note: '',
  position: { lon: -40.0005, lat: 37.999 },
  valveHeight: 0.5,
  volume: 1,
} as const;

test('any plan, finished or not, gives finite numbers in order and readable words', () => {
  fc.assert(
    fc.property(anyCase, (made) => {
      const plan = anyPlanOf(made);
      const lengths = Object.fromEntries(Object.entries(workingLengths).map(([id, m]) => [id, m * made.stretch]));
      const ground = madeGround(plan, { heights: made.heights, lengths, accuracy: made.accuracy });
      for (const result of [evaluate(plan, ground), evaluateDrawn(plan, ground, { count: 64, seed: 1 })]) {
        expect(faults(assessmentJson(plan, result))).toEqual([]);
        for (const units of ['metric', 'us'] as const) {
          expect(assessmentText(plan, result, units)).not.toMatch(/NaN|undefined|Infinity|null|−0[.]00\b/);
        }
      }
    }),
    { numRuns: 400, seed: 11 },
  );
});

/** A trough on the source with whatever may be said of it, beside whatever there is. */
const wet = fc.record({
  made: anyCase,
  share: fc.constantFrom(null, 0, 0.3, 1),
  most: fc.constantFrom(null, 1e-9, litresPerMinute(3), 100),
  count: fc.constantFrom(1, 2, 20),
  height: fc.option(fc.double({ min: 60, max: 140, noNaN: true }), { freq: 12 }),
});

test('so does any plan with a trough on the source and pumps side by side, which take no more than there is', () => {
  fc.assert(
    fc.property(wet, ({ made, share, most, count, height }) => {
      const base = anyPlanOf(made);
      const spring = base.points.some(({ id }) => id === 'spring');
      const plan: Plan = {
        ...base,
        points: [...base.points, { ...meadow, herdShare: share, valveFlow: most }],
        routes: spring ? [...base.routes, route('line', 'gravity', 'spring', 'meadow', 'pe25')] : base.routes,
        pump: base.pump && { ...base.pump, count },
      };
      const ground = madeGround(plan, {
        heights: { ...made.heights, meadow: height },
        lengths: workingLengths,
        accuracy: made.accuracy,
      });
      for (const result of [evaluate(plan, ground), evaluateDrawn(plan, ground, { count: 64, seed: 1 })]) {
        expect(faults(assessmentJson(plan, result))).toEqual([]);
        expect(assessmentText(plan, result, 'metric')).not.toMatch(/NaN|undefined|Infinity|null/);
        const { available, drawn } = result.source;
        const supply = result.lines.find(({ role }) => role === 'supply')?.flow ?? 0;
        if (available && drawn) expect(supply + drawn.mean).toBeLessThanOrEqual(available.likely + 1e-12);
      }
    }),
    { numRuns: 200, seed: 5 },
  );
});

test('a lower summit far along governs over a higher one near the pump once friction is large', () => {
  const far = { ...workingLengths, delivery: 3000 };
  const summit = (at: number, top: number) => (share: number) => Math.max(0, 1 - Math.abs(share - at) * 60) * top;
  const bumpy = (share: number) => 100 + 20 * share + summit(0.1, 30)(share) + summit(0.9, 11)(share);
  const small: Plan = {
    ...workingPlan,
    pipes: workingPlan.pipes.map((p) => (p.id === 'pe25' ? { id: 'pe25', kind: 'row', row: 'pe100-sdr7.4-16' } : p)),
  };
  const governedAt = (plan: Plan) => {
    const ground = madeGround(plan, {
      heights: { ...workingHeights, tank: 120 },
      lengths: far,
      bumps: { delivery: bumpy },
    });
    const by = evaluate(plan, ground).tanks[0]?.line?.governedBy;
    return typeof by === 'object' ? by.summit / 3000 : by;
  };
  // 132 m at a tenth of the way, 129 m at nine tenths: 3 m apart, less than the loss between them in the small pipe.
  expect(governedAt(workingPlan)).toBeCloseTo(0.1, 2);
  expect(governedAt(small)).toBeCloseTo(0.9, 2);
});

test('a drive pipe straight from the source leaves a drawn standpipe and its supply line aside', () => {
  const direct: Plan = {
    ...workingPlan,
    routes: [
      ...workingPlan.routes.filter((r) => r.role !== 'drive'),
      route('straight', 'drive', 'spring', 'ram', 'steel'),
    ],
  };
  const result = evaluate(
    direct,
    madeGround(direct, { heights: workingHeights, lengths: { ...workingLengths, straight: 90 } }),
  );
  expect(result.pump?.fall.likely).toBe(result.pump?.fallAtRest.likely);
  expect(result.pump?.supplyLimit).toBeNull();
  expect(result.standpipe).toBeNull();
});
