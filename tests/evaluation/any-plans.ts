import fc from 'fast-check';
import type { Plan, PumpChoice } from '../../src/plan/model/plan.ts';
import { coarse, lidar, perfect } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingPlan } from './made-plan.ts';

const RAM: PumpChoice = {
  kind: 'ram',
  label: 'invented',
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

const pumps = fc.constantFrom<PumpChoice | null>(null, sheet, { ...sheet, intakeSet: litresPerMinute(90) }, RAM, {
  ...RAM,
  valveWeightHead: 3,
});

const some = <T>(all: readonly T[]) => fc.subarray([...all], { minLength: 0 });

/** Unfinished, contradictory and extreme plans that a plan file could hold, each on ground of its own. */
export const anyCase = fc.record({
  points: some(workingPlan.points),
  routes: some(workingPlan.routes),
  pump: pumps,
  temperature: fc.constantFrom(0, 10, 60),
  confidence: fc.constantFrom(0.5, 0.9, 0.999),
  read: fc.boolean(),
  herd: fc.boolean(),
  share: fc.constantFrom(null, 0, 1),
  heights: fc.record(
    Object.fromEntries(
      Object.entries(workingHeights).map(([id, z]) => [
        id,
        fc.option(fc.double({ min: z - 30, max: z + 30, noNaN: true }), { freq: 12 }),
      ]),
    ),
  ),
  stretch: fc.constantFrom(0, 0.1, 1, 20),
  accuracy: fc.constantFrom(perfect, lidar, coarse),
});

export type AnyCase = typeof anyCase extends fc.Arbitrary<infer T> ? T : never;

/** The plan of a case. */
export function anyPlanOf({ points, routes, pump, temperature, confidence, read, herd, share }: AnyCase): Plan {
  const ids = new Set(points.map((p) => p.id));
  return {
    ...workingPlan,
    points,
    routes: routes.filter((r) => ids.has(r.from) && ids.has(r.to)),
    pump,
    waterTemperature: temperature,
    confidence,
    yieldReadings: read ? workingPlan.yieldReadings : [],
    herd: herd ? workingPlan.herd : [],
    dryShare: share,
    leftInStream: share,
  };
}
