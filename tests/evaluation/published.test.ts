import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { eytelwein, measuredRams, planningBand, printedEfficiency } from '../../src/handbook/ram-efficiency.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { FOOT_M, LITRE_M3, US_GALLON_M3 } from '../../src/units/factor.ts';
import { madeGround } from './made-ground.ts';
import { sheet, workingPlan } from './made-plan.ts';

/** A delivery pipe so wide that nothing is lost in it: printed examples leave friction out. */
const wide = {
  kind: 'own',
  label: 'wide',
  material: 'steel',
  bore: 1,
  wall: 0.01,
  roughness: 1e-6,
  rating: null,
} as const;

/** Source, pump and tank alone, at heights that make a printed example's fall and delivery head. */
function example(made: { fall: number; head: number; flow: number; efficiency: number }): Plan {
  const { efficiency } = made;
  const flat = { waterLevel: 0, wasteValveHeight: 0, inletHeight: 0 };
  return {
    ...workingPlan,
    points: workingPlan.points.filter((p) => p.id !== 'standpipe' && p.id !== 'trough').map((p) => ({ ...p, ...flat })),
    routes: workingPlan.routes.filter((r) => r.id === 'delivery'),
    pipes: [{ id: 'pe25', ...wide }],
    pump: {
      ...sheet,
      // Set to what there is; it would run on half of it.
      intakeLeast: made.flow / 2,
      intakeMost: made.flow,
      efficiency: { low: efficiency, likely: efficiency, high: efficiency },
    },
    yieldReadings: [{ kind: 'stated', flow: made.flow, plusMinus: 0 }],
    dryShare: 1,
  };
}

function delivered(made: { fall: number; head: number; flow: number; efficiency: number }): number {
  const plan = example(made);
  const heights = { spring: made.fall, ram: 0, tank: made.head };
  const result = evaluate(plan, madeGround(plan, { heights, lengths: { delivery: 100 } }));
  return result.tanks[0]?.line?.delivery?.likely ?? 0;
}

describe('printed examples of what a ram delivers', () => {
  test('a ram 20 ft below the spring box with its tank 100 ft above the box lifts 1200 gallons a day of 10 a minute', () => {
    // Peace Corps, A Training Manual in … Hydrams, 1981, attachment 10-M (question); the head counts from the pump: 120 ft.
    const flow = (10 * US_GALLON_M3) / 60;
    const q = delivered({ fall: 20 * FOOT_M, head: 120 * FOOT_M, flow, efficiency: 0.5 });
    expect((q * 86_400) / US_GALLON_M3).toBeCloseTo(1200, 0);
  });

  test('30 L/s through 4 m lift 3 L/s to 18 m at 45 %', () => {
    // Worked problem, civinnovate.com, 2025: D'Aubuisson efficiency 45 %.
    expect(delivered({ fall: 4, head: 18, flow: 0.03, efficiency: 0.45 }) / LITRE_M3).toBeCloseTo(3, 3);
  });

  test.each([
    [5, 20, 236],
    [10, 50, 187],
    [3, 30, 87],
  ])(
    'of each litre a minute through %d m a printed table lifts to %d m what 60 to 66 %% give',
    (fall, lift, litresADay) => {
      // aquatext.com/tables/hydram.htm: litres a day for each litre a minute.
      const perDay = (efficiency: number) =>
        (delivered({ fall, head: lift, flow: LITRE_M3 / 60, efficiency }) / LITRE_M3) * 86_400;
      expect(perDay(0.6)).toBeLessThan(litresADay);
      expect(perDay(0.66)).toBeGreaterThan(litresADay);
    },
  );
});

describe('the planning band beside printed efficiencies', () => {
  /** Building Trades Pocketbook, water supply chapter: lift over fall and efficiency. */
  const POCKETBOOK = [
    [4, 0.72],
    [6, 0.61],
    [8, 0.52],
    [10, 0.44],
    [12, 0.37],
    [14, 0.31],
    [16, 0.25],
  ] as const;

  test.each(POCKETBOOK)('is read as printed at %d times the fall: %d', (ratio, efficiency) => {
    expect(printedEfficiency(ratio)).toBeCloseTo(efficiency, 9);
    const { low, likely, high } = planningBand(ratio);
    expect(low).toBeLessThan(likely);
    expect(likely).toBeLessThan(efficiency);
    expect(high).toBeGreaterThanOrEqual(efficiency);
  });

  test('Eytelwein’s formula meets the table at 4 times the fall and runs above it at 10', () => {
    // η = 1.12 − 0.2 √(h/H), from memory.
    expect(eytelwein(4)).toBeCloseTo(0.72, 9);
    expect(eytelwein(10)).toBeCloseTo(0.4875, 4);
  });

  test('falls as the lift grows against the fall, and comes to nothing', () => {
    const likely = Array.from({ length: 40 }, (_, i) => planningBand(1 + i).likely);
    expect(likely).toEqual(likely.toSorted((a, b) => b - a));
    expect(likely.at(-1)).toBe(0);
  });

  test('holds as many of the published measurements as a band from the 10th to the 90th percentile should', () => {
    const within = measuredRams.filter(({ headOverFall, efficiency }) => {
      const { low, high } = planningBand(headOverFall);
      return efficiency >= low && efficiency <= high;
    });
    // Eight of ten of seven: five or six; by chance four to seven.
    expect(measuredRams).toHaveLength(7);
    expect(within.length).toBeGreaterThanOrEqual(5);
    expect(within.length).toBeLessThanOrEqual(6);
  });
});
