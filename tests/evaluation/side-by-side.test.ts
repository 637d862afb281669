import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { materialNeeds } from '../../src/evaluation/evaluate/materials.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import type { PhysicalRam, Plan, PumpSheet } from '../../src/plan/model/plan.ts';
import { pipeBill } from '../../src/report/tables/pipe-bill.ts';
import { findingSentence } from './finding-sentence.ts';
import { madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';
import { yearOf } from './year-of.ts';

// Pumps of 6 to 12 L/min at half efficiency; the made source gives 18 L/min.
const AVAILABLE = 18;
const HALF = { low: 0.5, likely: 0.5, high: 0.5 };

const small: PumpSheet = {
  ...sheet,
  intakeLeast: litresPerMinute(6),
  intakeMost: litresPerMinute(12),
  efficiency: HALF,
};

const ram: PhysicalRam = {
  kind: 'ram',
  label: 'invented ram',
  count: 1,
  driveBore: 0.035,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  valveWeightHead: null,
  valveStroke: 0.005,
  checkLag: 0.003,
  airChamber: 0.002,
  measured: null,
};

const withPump = (pump: Plan['pump'], flow = 20): Plan => ({
  ...workingPlan,
  pump,
  yieldReadings: [{ kind: 'stated', flow: litresPerMinute(flow), plusMinus: litresPerMinute(flow / 20) }],
});
const groundOf = (plan: Plan) => madeGround(plan, { heights: workingHeights, lengths: workingLengths });
const evaluated = (plan: Plan): Evaluation => evaluate(plan, groundOf(plan));
const minute = (flow: number | null | undefined) => (flow ?? Number.NaN) * 60_000;
const line = (result: Evaluation, id: string) => result.lines.find((l) => l.id === id);
const two = evaluated(withPump({ ...small, count: 2 }));

describe('two equal pumps side by side', () => {
  test('take together what one alone would leave', () => {
    expect(minute(evaluated(withPump(small)).pump?.driveFlow?.likely)).toBeCloseTo(12, 9);
    expect(minute(two.pump?.driveFlow?.likely)).toBeCloseTo(AVAILABLE, 9);
    expect(two.pump?.count).toBe(2);
    expect(minute(line(two, 'supply')?.flow)).toBeCloseTo(AVAILABLE, 9);
  });

  test('deliver by the work of all the water they take, through one line', () => {
    const [tank] = two.tanks;
    const fall = two.pump?.fall.likely ?? Number.NaN;
    const head = (tank?.line?.governingLift.likely ?? Number.NaN) + (tank?.line?.friction ?? Number.NaN);
    // D'Aubuisson: q = η Q H / h.
    expect(minute((tank?.line?.ifRunningPerDay?.likely ?? Number.NaN) / 86_400)).toBeCloseTo(
      (0.5 * AVAILABLE * fall) / head,
      6,
    );
    expect(minute(line(two, 'delivery')?.flow)).toBeCloseTo(
      minute((tank?.line?.ifRunningPerDay?.likely ?? Number.NaN) / 86_400),
      9,
    );
  });

  test('each have a drive pipe that carries half, and shut as a pump that takes half by itself', () => {
    const each = AVAILABLE / 2;
    expect(minute(line(two, 'drive')?.flow)).toBeCloseTo(each, 9);
    // Steel pipe of 1-1/4 in, Schedule 40: bore 1.380 in (ASTM A53).
    const section = (Math.PI * (1.38 * 0.0254) ** 2) / 4;
    expect(line(two, 'drive')?.velocity).toBeCloseTo(litresPerMinute(each) / section, 4);
    const alone = evaluated(withPump({ ...small, intakeSet: litresPerMinute(each) }));
    expect(line(two, 'drive')?.pressure?.blocked).toBeCloseTo(line(alone, 'drive')?.pressure?.blocked ?? 0, 6);
  });

  test('need twice what one needs, and the sentence says so', () => {
    const needy = evaluated(withPump({ ...small, count: 2 }, 12));
    const short = needy.findings.find((f) => f.code === 'source-short');
    // 12 L/min, of which 0.9 in the dry season: 10.8 against 2 of 6 L/min.
    expect(minute(short?.limit)).toBeCloseTo(12, 9);
    expect(minute(short?.value?.likely)).toBeCloseTo(10.8, 9);
    expect(short?.verdict).toBe('fails');
    const words = findingSentence(needy, 'source-short', 'spring');
    expect(words).toContain('the 2 pumps together need 12.0 L/min');
    expect(words).toContain('Shut off pumps while there is less water');
    expect(evaluated(withPump(small, 12)).findings.find((f) => f.code === 'source-short')?.verdict).toBe('holds');
  });

  test('want a supply line wider than one pipe with the section of both', () => {
    const ratio = (result: Evaluation) =>
      result.findings.find((f) => f.code === 'supply-bore')?.value?.likely ?? Number.NaN;
    expect(ratio(two)).toBeCloseTo(ratio(evaluated(withPump(small))) / Math.SQRT2, 9);
  });

  test('are bought with two drive pipes and their fittings, and with one of everything else', () => {
    const bought = (count: number) => {
      const base = withPump({ ...small, count });
      const fitted = (id: string) => (id === 'drive' ? [{ fitting: 'elbow-45', count: 3 }] : []);
      const plan = { ...base, routes: base.routes.map((r) => ({ ...r, fittings: fitted(r.id) })) };
      const result = evaluated(plan);
      return { needs: materialNeeds(plan, result), bill: pipeBill(plan, result, 'metric') };
    };
    const [one, both] = [bought(1), bought(2)];
    const length = ({ needs }: typeof one, item: string) =>
      needs.pipes.find((p) => p.item === item)?.length ?? Number.NaN;
    // 30 m along the ground on the map and 3.4 m down.
    expect(length(one, 'steel-sch40-1.25in')).toBeCloseTo(Math.hypot(30, 3.4), 6);
    expect(length(both, 'steel-sch40-1.25in')).toBeCloseTo(2 * Math.hypot(30, 3.4), 6);
    expect(length(both, 'pe100-sdr17-63')).toBe(length(one, 'pe100-sdr17-63'));
    const elbows = ({ needs }: typeof one) => needs.pieces.find((p) => p.item === 'elbow-45')?.count;
    expect([elbows(one), elbows(both)]).toEqual([3, 6]);
    const steel = ({ bill }: typeof one) => bill.pipes.find((p) => p.need.item === 'steel-sch40-1.25in')?.routes;
    expect([steel(one), steel(both)]).toEqual(['drive', '2 × drive']);
  });

  test('run one after the other as the water comes back over the year', () => {
    const shares = [1, 0.5, 0.25];
    const year = Array.from({ length: 12 }, (_, m) => ({
      season: 'summer' as const,
      airTemperature: null,
      sourceShare: shares[m] ?? 1,
    }));
    const months = (pump: PumpSheet) => {
      const plan = { ...withPump(pump), year };
      return yearOf(plan, groundOf(plan))?.[0]?.months.map((m) => m.deliveryPerDay) ?? [];
    };
    const [pair, single] = [months({ ...small, count: 2 }), months(small)];
    // 20 L/min: both. 10 L/min: below 2 of 6, so one of them runs, on all of it. 5 L/min: none.
    expect(pair[0]).toBeGreaterThan(1.4 * (single[0] ?? Number.NaN));
    expect(pair[1]).toBeCloseTo(single[1] ?? Number.NaN, 9);
    expect(pair[1]).toBeGreaterThan(0);
    expect(pair[2]).toBe(0);
  });

  test('are as good as one of them at its share of the water, rams by their parts too', () => {
    const one = evaluated(withPump(ram, 10));
    const pair = evaluated(withPump({ ...ram, count: 2 }, 20));
    const take = (result: Evaluation) => minute(result.pump?.driveFlow?.likely);
    expect(take(pair)).toBeCloseTo(2 * take(one), 6);
    // The supply line loses more at twice the flow, so the fall is a little less.
    expect(pair.pump?.efficiency.likely).toBeCloseTo(one.pump?.efficiency.likely ?? Number.NaN, 2);
  });
});
