import type { Position } from '../../geodesy/position.ts';
import type { Plan, PlanPoint, PointId, PointRole, UnitSystem } from './plan.ts';
import { deepFreeze } from './plan-draft.ts';

/** A plan with nothing drawn and nothing said: what only the user can know is null. */
export function emptyPlan({ name, units }: { readonly name: string; readonly units: UnitSystem }): Plan {
  return deepFreeze<Plan>({
    name,
    units,
    waterTemperature: 10,
    points: [],
    routes: [],
    areas: [],
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

/**
 * A new point of a role, with starting values: figures to be changed, chosen so that the drawing means something at once.
 *
 * Water and outlets lie at the ground where nothing better is known. All of them are common practice without a source, and
 * none is advice: a standpipe of 2 m with its inlet 0.3 m up, a tank of 1 m³ filled at 1.2 m and drawn off at 0.1 m, a
 * trough of 0.5 m³ with its float valve at 0.5 m.
 */
export function startingPoint(role: PointRole, id: PointId, name: string, position: Position): PlanPoint {
  const base = { id, name, position, note: '' };
  switch (role) {
    case 'source':
      return { role, ...base, waterLevel: 0, storage: 0 };
    case 'standpipe':
      return { role, ...base, inletHeight: 0.3, topHeight: 2, bore: 0.1 };
    case 'pump':
      return { role, ...base, wasteValveHeight: 0.2 };
    case 'tank':
      return { role, ...base, inletHeight: 1.2, outletHeight: 0.1, volume: 1, standing: 'candidate' };
    case 'trough':
      return { role, ...base, valveHeight: 0.5, volume: 0.5, herdShare: null, valveFlow: null };
  }
}
