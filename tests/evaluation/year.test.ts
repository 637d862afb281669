import { expect, test } from 'vitest';
import { evaluate, evaluateAtRest } from '../../src/evaluation/evaluate/evaluate.ts';
import type { MonthOfYear, Plan } from '../../src/plan/model/plan.ts';
import { madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';
import { yearOf } from './year-of.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });

/** AAFC, Livestock watering, after The Stockman's Guide to Range Livestock Watering: cow-calf pair 50 L in winter, 68 L in summer. */
const herd: Plan['herd'] = [{ kind: 'row', row: 'beef-cow-calf-pair-aafc', count: 20 }];

const month = (season: MonthOfYear['season'], sourceShare: number | null = null): MonthOfYear => ({
  season,
  airTemperature: null,
  sourceShare,
});

const year = Array.from({ length: 12 }, (_, m) => month(m >= 4 && m <= 9 ? 'summer' : 'winter'));

function plan(change: Partial<Plan> = {}): Plan {
  return {
    ...workingPlan,
    dryShare: 1,
    herd: [{ kind: 'own', label: 'made', needPerDay: 1.5, count: 1 }],
    year,
    ...change,
  };
}

test('a tank that gets more than is wanted stays full and runs over by the difference', () => {
  const p = plan();
  const months = yearOf(p, ground)?.[0]?.months ?? [];
  const perDay = evaluateAtRest(p, ground).tanks[0]?.line?.deliveryPerDay?.likely ?? 0;
  expect(months[0]?.deliveryPerDay).toBeCloseTo(perDay, 9);
  expect(months[0]?.overflow).toBeCloseTo(31 * (perDay - 1.5), 6);
  expect(months.every((m) => m.daysShort === 0 && m.lowest === 5)).toBe(true);
});

test('water is conserved over the year', () => {
  const dry = year.map((m, i) => (i === 7 || i === 8 ? { ...m, sourceShare: 0.6 } : m));
  const p = plan({ year: dry, herd: [{ kind: 'own', label: 'made', needPerDay: 2.2, count: 1 }] });
  const months = yearOf(p, ground)?.[0]?.months ?? [];
  const days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  const total = (of: (m: (typeof months)[number], i: number) => number) => months.reduce((s, m, i) => s + of(m, i), 0);
  const inflow = total((m, i) => m.deliveryPerDay * (days[i] ?? 0));
  const given = total((m, i) => m.needPerDay * (days[i] ?? 0) - m.shortfall);
  // What the tank holds on the last day less what it held on the first.
  const stays = inflow - given - total((m) => m.overflow);
  expect(Math.abs(stays)).toBeLessThanOrEqual(5 + 1e-9);
  expect(total((m) => m.shortfall)).toBeGreaterThan(0);
});

test('a spring below what the pump needs delivers nothing, and the store lasts as long as it lasts', () => {
  const dead = year.map((m, i) => (i === 7 ? { ...m, sourceShare: 0.3 } : m));
  const august = yearOf(plan({ year: dead }), ground)?.[0]?.months[7];
  expect(august?.deliveryPerDay).toBe(0);
  // 5 m³ at 1.5 m³ a day: three full days, a part of the fourth.
  expect(august?.daysShort).toBe(31 - 3);
  expect(august?.shortfall).toBeCloseTo(31 * 1.5 - 5, 9);
});

test('nothing is said without twelve months, a herd and a reading', () => {
  expect(yearOf(plan({ year: [] }), ground)).toBeNull();
  expect(yearOf(plan({ herd: [] }), ground)).toBeNull();
  expect(yearOf(plan({ yieldReadings: [] }), ground)).toBeNull();
});

test('a handbook row drinks as printed in winter and in summer', () => {
  const months = yearOf(plan({ herd }), ground)?.[0]?.months ?? [];
  expect(months[0]?.needPerDay).toBeCloseTo(20 * 0.05, 9);
  expect(months[6]?.needPerDay).toBeCloseTo(20 * 0.068, 9);
});

test('a dry season over New Year counts in both years', () => {
  // Dead from November to January, 1.5 m³ a day wanted from 5 m³: 3 days last of 92, none of them in January.
  const dead = year.map((m, i) => (i >= 10 || i === 0 ? { ...m, sourceShare: 0.3 } : m));
  const months = yearOf(plan({ year: dead }), ground)?.[0]?.months ?? [];
  expect(months[0]?.daysShort).toBe(31);
  expect(months[10]?.daysShort).toBe(30 - 3);
  expect(months.reduce((sum, m) => sum + m.daysShort, 0)).toBe(30 + 31 + 31 - 3);
});

test('a month without a share of its own has the dry season’s', () => {
  const dry = yearOf(plan({ dryShare: 0.6 }), ground)?.[0]?.months[0]?.deliveryPerDay ?? 0;
  const all = yearOf(plan(), ground)?.[0]?.months[0]?.deliveryPerDay ?? 0;
  // 12 of 20 L/min: about as much less arrives.
  expect(dry / all).toBeGreaterThan(0.5);
  expect(dry / all).toBeLessThan(0.7);
});

test('where the pump does not run on the day no month brings water', () => {
  if (workingPlan.pump?.kind !== 'sheet') throw new Error('found no sheet, expected one');
  const p = plan({ pump: { ...workingPlan.pump, intakeSet: 24 / 60_000 } });
  expect(evaluateAtRest(p, ground).tanks[0]?.line?.deliveryPerDay?.likely).toBe(0);
  expect(yearOf(p, ground)?.[0]?.months.every((m) => m.deliveryPerDay === 0)).toBe(true);
});

test('days short are a finding, and the answer about what arrives knows them', () => {
  const dead = year.map((m, i) => (i === 7 ? { ...m, sourceShare: 0.3 } : m));
  const { findings, answer } = evaluateAtRest(plan({ year: dead }), ground);
  const short = findings.find(({ code }) => code === 'year-short');
  expect(short?.value?.likely).toBe(31 - 3);
  expect(short?.verdict).toBe('fails');
  expect(answer.arrives.verdict).toBe('fails');
  expect(evaluate(plan(), ground).findings.find(({ code }) => code === 'year-short')?.verdict).toBe('holds');
});
