import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { pipeChoices } from '../../src/evaluation/evaluate/pipe-choices.ts';
import { classStretches } from '../../src/evaluation/evaluate/pipe-classes.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const long = madeGround(workingPlan, { heights: workingHeights, lengths: { ...workingLengths, delivery: 900 } });

test('a larger delivery pipe loses less and never delivers less', () => {
  const { choices } = pipeChoices(workingPlan, long, 'delivery');
  const flows = choices.map((c) => c.flow ?? 0);
  const shares = choices.map((c) => c.frictionShare ?? 0);
  expect(choices.length).toBeGreaterThan(4);
  expect(flows).toEqual(flows.toSorted((a, b) => a - b));
  expect(shares).toEqual(shares.toSorted((a, b) => b - a));
});

test('the size suggested is the smallest that keeps friction to a tenth of the lift', () => {
  const far = madeGround(workingPlan, { heights: workingHeights, lengths: { ...workingLengths, delivery: 4000 } });
  const { choices, suggested } = pipeChoices(workingPlan, far, 'delivery');
  const at = choices.findIndex((c) => c.row.id === suggested?.id);
  expect(choices[at]?.frictionShare).toBeLessThanOrEqual(0.1);
  expect(choices[at - 1]?.frictionShare).toBeGreaterThan(0.1);
});

test('the row the plan has gives what the plan gives', () => {
  const own = pipeChoices(workingPlan, long, 'delivery').choices.find((c) => c.row.id === 'pe100-sdr11-25');
  expect(own?.flow).toBe(evaluate(workingPlan, long).lines.find((l) => l.id === 'delivery')?.flow);
});

const withRelief = (relief: number): Plan => ({
  ...workingPlan,
  routes: workingPlan.routes.map((r) => (r.id === 'delivery' ? { ...r, relief } : r)),
});

test('the heavy pipe lies low and the light pipe high, each where ISO 4427 rates it', () => {
  // A tank 140 m up: 14 bar at the pump, so PN 16 (SDR 11) low down, lighter pipe where less than 10 bar stand over it. The relief
  // valve opens at 15 bar.
  const ground = madeGround(workingPlan, { heights: { ...workingHeights, tank: 240 }, lengths: workingLengths });
  const stretches = classStretches(withRelief(15e5), ground, 'delivery') ?? [];
  const rated: Readonly<Record<string, number>> = {
    'pe100-sdr11-25': 16e5,
    'pe100-sdr13.6-25': 12.5e5,
    'pe100-sdr17-25': 10e5,
  };
  expect(stretches[0]?.row).toBe('pe100-sdr11-25');
  expect(stretches.length).toBeGreaterThan(1);
  for (const stretch of stretches) {
    if (stretch.row !== null && rated[stretch.row] !== undefined)
      expect(stretch.most).toBeLessThanOrEqual(rated[stretch.row] ?? 0);
  }
  expect(stretches[0]?.from).toBe(0);
  expect(stretches.at(-1)?.to).toBeCloseTo(300, 9);
});

test('without a relief valve the shut line rules: its pressure is that of the pump’s wave on top of the fall', () => {
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const most = (plan: Plan) => classStretches(plan, ground, 'delivery')?.[0]?.most ?? 0;
  const blocked = evaluate(workingPlan, ground).lines.find((l) => l.id === 'delivery')?.pressure?.blocked ?? 0;
  expect(most(workingPlan)).toBeGreaterThanOrEqual(blocked);
  // 25 m of lift are 2.5 bar; the valve opens at 4 bar and the likely pressure ends there.
  expect(most(withRelief(4e5))).toBeLessThan(most(workingPlan));
  expect(most(withRelief(4e5))).toBeGreaterThanOrEqual(4e5);
});

test('a drive pipe feels the delivery head at every beat', () => {
  const ground = madeGround(workingPlan, { heights: { ...workingHeights, tank: 158 }, lengths: workingLengths });
  const plan: Plan = {
    ...workingPlan,
    routes: workingPlan.routes.map((r) => (r.id === 'drive' ? { ...r, pipe: 'pe25' } : r)),
  };
  // 60 m from the waste valve to the outlet: ρ g h = 1000 × 9.81 × 60 = 5.9 bar.
  const stretches = classStretches(plan, ground, 'drive') ?? [];
  expect(stretches.at(-1)?.most).toBeGreaterThan(5.8e5);
});

test('what is advised holds once it is laid', () => {
  const ground = madeGround(workingPlan, { heights: { ...workingHeights, tank: 190 }, lengths: workingLengths });
  const base = withRelief(12e5);
  for (const { row } of classStretches(base, ground, 'delivery')?.slice(0, 1) ?? []) {
    if (row === null) throw new Error('found no class, expected one');
    const laid: Plan = {
      ...base,
      pipes: [...base.pipes, { id: 'class', kind: 'row', row }],
      routes: base.routes.map((r) => (r.id === 'delivery' ? { ...r, pipe: 'class' } : r)),
    };
    const judged = evaluate(laid, ground).findings.filter((f) => /pressure/.test(f.code) && f.about === 'delivery');
    expect(judged.length).toBe(2);
    expect(judged.every((f) => f.verdict === 'holds')).toBe(true);
  }
});

test('plastic in water above its table has no rating and is told so', () => {
  // ISO 4427-1 rates PE to 40 °C.
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const warm = { ...workingPlan, waterTemperature: 45 };
  const stretches = classStretches(warm, ground, 'delivery') ?? [];
  expect(stretches.every((s) => s.unrated && s.row === null)).toBe(true);
  const told = evaluate(warm, ground).findings.filter((f) => f.code === 'pipe-warm');
  expect(told.map((f) => f.limit)).toContain(40);
});

const laid = (id: string, row: string): Plan => ({
  ...workingPlan,
  pipes: [...workingPlan.pipes, { id: 'other', kind: 'row', row }],
  routes: workingPlan.routes.map((r) => (r.id === id ? { ...r, pipe: 'other' } : r)),
});

test('a plastic drive pipe is not offered in other plastic sizes but in steel', () => {
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const { choices, otherMaterial } = pipeChoices(laid('drive', 'pe100-sdr11-50'), ground, 'drive');
  expect(otherMaterial).toBe(true);
  expect(choices.length).toBeGreaterThan(4);
  for (const { row } of choices) expect(row.surface).toBe('steel-galvanised');
});

test('a gravity line is told the smallest size that waters its trough', () => {
  // A thirsty herd behind a long line of little fall.
  const plan: Plan = {
    ...laid('gravity', 'pe100-sdr11-20'),
    herd: [{ kind: 'own', label: 'made', needPerDay: 0.05, count: 120 }],
  };
  const ground = madeGround(plan, {
    heights: { ...workingHeights, trough: 121.5 },
    lengths: { ...workingLengths, gravity: 600 },
  });
  const { choices, suggested } = pipeChoices(plan, ground, 'gravity');
  const at = choices.findIndex(({ row }) => row.id === suggested?.id);
  expect(at).toBeGreaterThan(0);
  // 6 m³ a day are 4.2 L/min in the mean: the size below does not bring the share that it must.
  expect(choices[at]?.flow ?? 0).toBeGreaterThan(6 / 86_400);
  expect(choices[at - 1]?.flow ?? 1).toBeLessThan(choices[at]?.flow ?? 0);
});

test('the friction of a free gravity line, the same in every size, is not shown as if it told them apart', () => {
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const { choices } = pipeChoices(workingPlan, ground, 'gravity');
  expect(new Set(choices.map(({ flow }) => flow)).size).toBe(choices.length);
  expect(choices.every(({ friction }) => friction === null)).toBe(true);
});
