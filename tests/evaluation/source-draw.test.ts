import { describe, expect, test } from 'vitest';
import { evaluate, evaluateAtRest } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import type { Plan, PlanPoint, TroughPoint } from '../../src/plan/model/plan.ts';
import { findingSentence } from './finding-sentence.ts';
import { lidar, madeGround, perfect } from './made-ground.ts';
import { litresPerMinute, route, workingHeights, workingLengths, workingPlan } from './made-plan.ts';
import { yearOf } from './year-of.ts';

// The made source gives 20 L/min, 0.9 of it in the dry season: 18 L/min. The made herd drinks 750 L a day: 0.52083 L/min.
const AVAILABLE = 18;
const HERD = 750 / 1440;

const minute = (flow: number | null | undefined) => (flow ?? Number.NaN) * 60_000;

const meadow = (id: string, changes: Partial<TroughPoint> = {}): TroughPoint => ({
  id,
  role: 'trough',
  name: id,
  note: '',
  position: { lon: -40.0005, lat: 37.9992 + 0.001 * id.length },
  valveHeight: 0.5,
  volume: 1,
  herdShare: null,
  valveFlow: null,
  ...changes,
});

function drawn(troughs: readonly TroughPoint[], changes: Partial<Plan> = {}): Plan {
  const at = new Map<string, PlanPoint>([...workingPlan.points, ...troughs].map((p) => [p.id, p]));
  const lines = troughs.map(({ id }) => ({
    ...route(`line-${id}`, 'gravity', 'spring', id, 'pe25'),
    vertices: ['spring', id].flatMap((end) => at.get(end)?.position ?? []),
  }));
  return {
    ...workingPlan,
    points: [...workingPlan.points, ...troughs],
    routes: [...workingPlan.routes, ...lines],
    ...changes,
  };
}

function groundOf(plan: Plan, { accuracy = perfect, line = 80 } = {}) {
  const heights: Record<string, number> = { ...workingHeights };
  const lengths: Record<string, number> = { ...workingLengths };
  for (const { id } of plan.points) heights[id] ??= 100;
  for (const { id } of plan.routes) lengths[id] ??= line;
  return madeGround(plan, { heights, lengths, accuracy });
}

const evaluated = (plan: Plan, line = 80): Evaluation => evaluate(plan, groundOf(plan, { line }));

const short = (result: Evaluation) => result.findings.find((f) => f.code === 'source-short');

describe('a trough on a line from the source', () => {
  test('takes in the mean what is drunk there, and the pump gets the rest', () => {
    expect(minute(evaluated(workingPlan).pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE, 9);
    const result = evaluated(drawn([meadow('meadow', { valveFlow: litresPerMinute(2) })]));
    expect(minute(result.pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE - HERD, 9);
    expect(minute(result.source.drawn?.mean)).toBeCloseTo(HERD, 9);
    expect(minute(result.source.available?.likely)).toBeCloseTo(AVAILABLE, 9);
    const fifth = evaluated(drawn([meadow('meadow', { valveFlow: litresPerMinute(2), herdShare: 0.2 })]));
    expect(minute(fifth.pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE - HERD / 5, 9);
  });

  test('is served after the stream has kept its share', () => {
    const plan = drawn([meadow('meadow', { valveFlow: litresPerMinute(2) })], { leftInStream: 0.25 });
    // 18 L/min less a quarter.
    expect(minute(evaluated(plan).pump?.driveFlow?.likely)).toBeCloseTo(13.5 - HERD, 9);
  });

  test('lowers what arrives at the tank', () => {
    const arrives = (plan: Plan) => (evaluated(plan).tanks[0]?.line?.ifRunningPerDay?.likely ?? Number.NaN) / 86_400;
    const less = arrives(drawn([meadow('meadow', { valveFlow: litresPerMinute(2) })]));
    const share = less / arrives(workingPlan);
    // Water, and with a little less friction a little more than in proportion to it: 17.479 of 18 L/min.
    expect(share).toBeGreaterThan((AVAILABLE - HERD) / AVAILABLE);
    expect(share).toBeLessThan(1);
  });

  test('cannot bring more than the source gives', () => {
    // The same line brings some 31 L/min over 20 m where there is enough water.
    const result = evaluated(drawn([meadow('meadow')]), 20);
    const line = result.troughs.find((t) => t.id === 'meadow');
    expect(minute(line?.flow?.likely)).toBeCloseTo(AVAILABLE, 9);
    const dry = result.findings.find((f) => f.code === 'trough-dry' && f.about === 'line-meadow');
    // 18 L/min for a day.
    expect((dry?.value?.likely ?? Number.NaN) * 1000).toBeCloseTo(AVAILABLE * 1440, 6);
  });

  test('cannot do so in a plan without a pump either', () => {
    const plan = drawn([meadow('meadow')]);
    const points = plan.points.filter(({ role }) => role === 'source' || role === 'trough');
    const alone = {
      ...plan,
      points,
      pump: null,
      routes: plan.routes.filter(({ from }) => from === 'spring').filter(({ role }) => role === 'gravity'),
    };
    expect(minute(evaluated(alone, 20).troughs.find((t) => t.id === 'meadow')?.flow?.likely)).toBeCloseTo(AVAILABLE, 9);
  });

  test('must leave the pump what it needs while its valve is open', () => {
    const left = (most: number) => short(evaluated(drawn([meadow('meadow', { valveFlow: litresPerMinute(most) })])));
    // The pump needs 10 L/min.
    expect(minute(left(5)?.value?.likely)).toBeCloseTo(AVAILABLE - 5, 9);
    expect(left(5)?.verdict).toBe('holds');
    expect(left(8)?.verdict).toBe('measure');
    expect(minute(left(11)?.value?.likely)).toBeCloseTo(AVAILABLE - 11, 9);
    expect(left(11)?.verdict).toBe('fails');
    expect(short(evaluated(drawn([meadow('meadow')]), 20))?.value?.likely).toBe(0);
  });

  test('adds to what others on the source take', () => {
    const result = evaluated(
      drawn([
        meadow('meadow', { valveFlow: litresPerMinute(3), herdShare: 0.5 }),
        meadow('bottom', { valveFlow: litresPerMinute(4) }),
      ]),
    );
    expect(minute(short(result)?.value?.likely)).toBeCloseTo(AVAILABLE - 7, 9);
    expect(minute(result.pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE - HERD, 9);
  });

  test('takes no more than one herd drinks where it drinks now here, now there', () => {
    const both = [meadow('meadow', { herdShare: 1 }), meadow('bottom', { herdShare: 1 })];
    const throttled = both.map((t) => ({ ...t, valveFlow: litresPerMinute(3) }));
    expect(minute(evaluated(drawn(throttled)).pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE - HERD, 9);
  });

  test('takes nothing where nobody drinks; without a herd its open valve counts, and no daily draw is made up', () => {
    const valveFlow = litresPerMinute(2);
    const nobody = evaluated(drawn([meadow('meadow', { valveFlow, herdShare: 0 })]));
    expect(minute(nobody.pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE, 9);
    expect(minute(short(nobody)?.value?.likely)).toBeCloseTo(AVAILABLE, 9);
    const unsaid = evaluated(drawn([meadow('meadow', { valveFlow })], { herd: [] }));
    expect(minute(unsaid.pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE, 9);
    expect(minute(short(unsaid)?.value?.likely)).toBeCloseTo(AVAILABLE - 2, 9);
  });

  test('is told with what it takes and what to do', () => {
    const words = findingSentence(
      evaluated(drawn([meadow('meadow', { valveFlow: litresPerMinute(11) })])),
      'source-short',
      'spring',
    );
    expect(words).toContain('beside the 11.0 L/min that its own lines to troughs use while their valves are open');
    expect(words).toContain('Throttle the lines to the troughs');
    expect(findingSentence(evaluated(workingPlan), 'source-short', 'spring')).not.toContain('troughs');
  });

  test('is taken from the pump month by month', () => {
    const year = Array.from({ length: 12 }, (_, m) => ({
      season: 'summer' as const,
      airTemperature: null,
      sourceShare: m === 0 ? 0.9 : 0.7,
    }));
    const plan = drawn([meadow('meadow', { valveFlow: litresPerMinute(2) })], { year });
    const months = yearOf(plan, groundOf(plan))?.[0]?.months;
    const arrives = evaluated(plan).tanks[0]?.line?.ifRunningPerDay?.likely ?? Number.NaN;
    // January gives as much as the dry season of the plan; the rest 14 L/min, of which the open valve leaves 12: the pump beats.
    // The year tells medians of draws, the day here is to first order.
    expect((months?.[0]?.deliveryPerDay ?? 0) / arrives).toBeCloseTo(1, 1);
    expect(months?.[1]?.deliveryPerDay).toBeGreaterThan(0);
    const drier = { ...plan, year: year.map((month) => ({ ...month, sourceShare: 0.52 })) };
    // 10.4 L/min less the 2 of the open valve: below the 10 L/min that the pump needs, which stops and does not start by itself.
    expect(yearOf(drier, groundOf(drier))?.[0]?.months[1]?.deliveryPerDay).toBe(0);
  });

  test('carries the doubt of its own heights to the pump: to first order as by draws', () => {
    // Lines of 16 mm that bring 3 to 4 L/min each, by heights of lidar.
    const pipes = [...workingPlan.pipes, { id: 'pe16', kind: 'row' as const, row: 'pe100-sdr9-16' }];
    const base = drawn([meadow('meadow'), meadow('bottom')]);
    const routes = base.routes.map((r) => (r.id.startsWith('line-') ? { ...r, pipe: 'pe16' } : r));
    const sure = { ...base, yieldReadings: [{ kind: 'stated' as const, flow: litresPerMinute(20), plusMinus: 0 }] };
    const plan: Plan = { ...sure, pipes, routes };
    const ground = groundOf(plan, { accuracy: { ...lidar, near: 0.3, nugget: 0.2 } });
    const [quick, slow] = [evaluate(plan, ground), evaluateAtRest(plan, ground)].map((each) => short(each)?.value);
    const width = (e: { low: number; high: number } | null | undefined) => minute(e?.high) - minute(e?.low);
    expect(width(quick)).toBeGreaterThan(0.2);
    expect(width(slow) / width(quick)).toBeGreaterThan(0.93);
    expect(width(slow) / width(quick)).toBeLessThan(1.07);
  });
});
