import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import type { Plan, PlanRoute, TankPoint, TroughPoint } from '../../src/plan/model/plan.ts';
import { findingSentence } from './finding-sentence.ts';
import { madeGround } from './made-ground.ts';
import { route, tank, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

// The made herd: 15 animals of 50 L a day, 750 L in all; a quarter of what drinks at a trough is wanted in the first hour.
const litres = (cubicMetres: number | null | undefined) => (cubicMetres ?? Number.NaN) * 1000;

const trough = (id: string, herdShare: number | null = null): TroughPoint => ({
  id,
  role: 'trough',
  name: id,
  note: '',
  position: { lon: -39.997, lat: 38.003 },
  valveHeight: 0.6,
  volume: 1,
  herdShare,
  valveFlow: null,
});

const tankAt = (id: string, standing: TankPoint['standing']): TankPoint => ({ ...tank, id, name: id, standing });

interface Drawn {
  readonly tanks: readonly TankPoint[];
  readonly troughs: readonly TroughPoint[];
  /** Tank or source, and trough. */
  readonly lines: readonly (readonly [from: string, to: string])[];
}

function planOf({ tanks, troughs, lines }: Drawn): Plan {
  const kept = workingPlan.points.filter((p) => p.role !== 'tank' && p.role !== 'trough');
  const gravity: PlanRoute[] = lines.map(([from, to]) => route(`${from}-${to}`, 'gravity', from, to, 'pe25'));
  const delivery = tanks.map((t) => route(`to-${t.id}`, 'delivery', 'ram', t.id, 'pe25'));
  const routes = workingPlan.routes.filter((r) => r.role === 'supply' || r.role === 'drive');
  return { ...workingPlan, points: [...kept, ...tanks, ...troughs], routes: [...routes, ...delivery, ...gravity] };
}

function evaluated(drawn: Drawn): Evaluation {
  const plan = planOf(drawn);
  const heights: Record<string, number> = { ...workingHeights };
  for (const t of drawn.tanks) heights[t.id] = workingHeights.tank;
  for (const t of drawn.troughs) heights[t.id] = 90;
  const lengths: Record<string, number> = { ...workingLengths };
  for (const t of drawn.tanks) lengths[`to-${t.id}`] = workingLengths.delivery;
  return evaluate(plan, madeGround(plan, { heights, lengths }));
}

function limits(result: Evaluation, code: string): Readonly<Record<string, number>> {
  const of = result.findings.filter((f) => f.code === code);
  return Object.fromEntries(of.map((f) => [f.about, Number(litres(f.limit).toFixed(6))]));
}

/** What must be brought to every tank a day, L. */
const demands = ({ tanks }: ReturnType<typeof evaluated>) =>
  Object.fromEntries(tanks.map((tank) => [tank.id, Math.round((tank.demandPerDay ?? Number.NaN) * 1e6) / 1000]));

describe('who drinks where', () => {
  test('two troughs of one tank share the herd equally, the tank waters all of it, and each first hour is for its own animals', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'candidate')],
      troughs: [trough('north'), trough('south')],
      lines: [
        ['a', 'north'],
        ['a', 'south'],
      ],
    });
    expect(limits(result, 'trough-dry')).toEqual({ 'a-north': 375, 'a-south': 375 });
    expect(limits(result, 'trough-first-hour')).toEqual({ north: 93.75, south: 93.75 });
    expect(limits(result, 'need-unmet')).toEqual({ a: 750 });
    expect(litres(result.tanks[0]?.demandPerDay)).toBeCloseTo(750, 9);
    expect(result.troughs.map((t) => litres(t.needPerDay))).toEqual([375, 375]);
    // 5 000 L at 750 L a day.
    expect(result.tanks[0]?.storageDays).toBeCloseTo(5000 / 750, 9);
  });

  test('what the plan says of one trough leaves the rest for the others', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'candidate')],
      troughs: [trough('north', 0.6), trough('south'), trough('east')],
      lines: [
        ['a', 'north'],
        ['a', 'south'],
        ['a', 'east'],
      ],
    });
    // 0.6 of 750, and half of the other 0.4 for each.
    expect(limits(result, 'trough-dry')).toEqual({ 'a-north': 450, 'a-south': 150, 'a-east': 150 });
    expect(limits(result, 'need-unmet')).toEqual({ a: 750 });
  });

  test('candidate tanks are alternatives: each carries the whole herd, and so does the trough of each', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'candidate'), tankAt('b', 'candidate'), tankAt('c', 'set-aside')],
      troughs: [trough('north'), trough('south')],
      lines: [
        ['a', 'north'],
        ['b', 'south'],
      ],
    });
    expect(demands(result)).toEqual({ a: 750, b: 750, c: 750 });
    expect(limits(result, 'trough-dry')).toEqual({ 'a-north': 750, 'b-south': 750 });
  });

  test('kept tanks stand together: the herd is shared among their troughs, and the pump must bring all of it', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'kept'), tankAt('b', 'kept'), tankAt('c', 'candidate')],
      troughs: [trough('north'), trough('south'), trough('east')],
      lines: [
        ['a', 'north'],
        ['a', 'south'],
        ['b', 'east'],
      ],
    });
    expect(limits(result, 'trough-dry')).toEqual({ 'a-north': 250, 'a-south': 250, 'b-east': 250 });
    // Nothing is said of the one that is set aside.
    expect(limits(result, 'need-unmet')).toEqual({ a: 750, b: 750 });
    // Two thirds of the herd drink from a, a third from b.
    const days = result.tanks.map((t) => t.storageDays ?? Number.NaN);
    expect(days[0]).toBeCloseTo(5000 / 500, 9);
    expect(days[1]).toBeCloseTo(5000 / 250, 9);
    expect(days[2]).toBeCloseTo(5000 / 750, 9);
  });

  test('a trough on the source does not take from what a tank must hold, until the plan says how the herd is divided', () => {
    const drawn = (meadow: number | null, hill: number | null): Drawn => ({
      tanks: [tankAt('a', 'kept')],
      troughs: [trough('meadow', meadow), trough('hill', hill)],
      lines: [
        ['spring', 'meadow'],
        ['a', 'hill'],
      ],
    });
    const silent = evaluated(drawn(null, null));
    expect(limits(silent, 'trough-dry')).toEqual({ 'spring-meadow': 750, 'a-hill': 750 });
    expect(demands(silent)).toEqual({ a: 750 });
    const said = evaluated(drawn(0.2, 0.8));
    expect(limits(said, 'trough-dry')).toEqual({ 'spring-meadow': 150, 'a-hill': 600 });
    expect(demands(said)).toEqual({ a: 600 });
  });

  test('a herd that drinks now here, now there wants the whole need at each trough and no more than that of the tank', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'kept')],
      troughs: [trough('north', 1), trough('south', 1)],
      lines: [
        ['a', 'north'],
        ['a', 'south'],
      ],
    });
    expect(limits(result, 'trough-dry')).toEqual({ 'a-north': 750, 'a-south': 750 });
    expect(limits(result, 'need-unmet')).toEqual({ a: 750 });
  });

  test('a trough without a line waters nobody and takes no share', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'candidate')],
      troughs: [trough('north'), trough('dry')],
      lines: [['a', 'north']],
    });
    expect(limits(result, 'trough-dry')).toEqual({ 'a-north': 750 });
    expect(result.troughs.map((t) => t.needPerDay)).toEqual([0.75, null]);
  });

  test('the sentence says how much of the herd it is about', () => {
    const result = evaluated({
      tanks: [tankAt('a', 'candidate')],
      troughs: [trough('north'), trough('south')],
      lines: [
        ['a', 'north'],
        ['a', 'south'],
      ],
    });
    expect(findingSentence(result, 'trough-dry', 'a-north')).toContain(
      'the 50 % of the herd that drinks there needs 375',
    );
    expect(findingSentence(result, 'need-unmet', 'a')).toContain('the herd needs 750');
  });
});

describe('a float valve', () => {
  test('that lets through less than the line brings is what fills the trough', () => {
    const drawn = (valveFlow: number | null): Drawn => ({
      tanks: [tankAt('a', 'kept')],
      troughs: [{ ...trough('hill'), valveFlow }],
      lines: [['a', 'hill']],
    });
    const open = evaluated(drawn(null)).troughs[0]?.flow?.likely ?? Number.NaN;
    const twoLitres = 2 / 60_000;
    expect(open).toBeGreaterThan(twoLitres);
    const throttled = evaluated(drawn(twoLitres));
    expect(throttled.troughs[0]?.flow?.likely).toBeCloseTo(twoLitres, 12);
    // 1 000 L in the trough and 2 L/min for an hour.
    const hour = throttled.findings.find((f) => f.code === 'trough-first-hour');
    expect(litres(hour?.value?.likely)).toBeCloseTo(1120, 6);
    expect(evaluated(drawn(open * 2)).troughs[0]?.flow?.likely).toBeCloseTo(open, 12);
  });
});
