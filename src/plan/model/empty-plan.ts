import { deepFreeze } from './freeze.ts';
import type { Plan, UnitSystem } from './plan.ts';

/** A plan with nothing drawn and nothing said: what only the user can know is null. */
export function emptyPlan({ name, units }: { readonly name: string; readonly units: UnitSystem }): Plan {
  return deepFreeze<Plan>({
    name,
    units,
    waterTemperature: 10,
    points: [],
    routes: [],
    pipes: [],
    pump: null,
    yieldReadings: [],
    dryShare: null,
    leftInStream: null,
    herd: [],
    year: [],
    measurements: [],
    materials: { currency: '', allowance: 0, prices: [] },
    mapTiles: null,
    confidence: 0.9,
    terrain: null,
  });
}
