import type { Position } from '../../geodesy/position.ts';
import { FOOT_M, INCH_M, US_GALLON_M3 } from '../../units/factor.ts';
import type { CubicMetres, Metres } from '../../units/quantity.ts';
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

interface StartingSizes {
  readonly standpipe: { readonly inletHeight: Metres; readonly topHeight: Metres; readonly bore: Metres };
  readonly pump: { readonly wasteValveHeight: Metres };
  readonly tank: { readonly inletHeight: Metres; readonly outletHeight: Metres; readonly volume: CubicMetres };
  readonly trough: { readonly valveHeight: Metres; readonly volume: CubicMetres };
}

const STARTING_SIZES: Readonly<Record<UnitSystem, StartingSizes>> = {
  metric: {
    standpipe: { inletHeight: 0.3, topHeight: 2, bore: 0.1 },
    pump: { wasteValveHeight: 0.2 },
    tank: { inletHeight: 1.2, outletHeight: 0.1, volume: 1 },
    trough: { valveHeight: 0.5, volume: 0.5 },
  },
  us: {
    standpipe: { inletHeight: FOOT_M, topHeight: 6 * FOOT_M, bore: 4 * INCH_M },
    pump: { wasteValveHeight: 8 * INCH_M },
    tank: { inletHeight: 4 * FOOT_M, outletHeight: 4 * INCH_M, volume: 250 * US_GALLON_M3 },
    trough: { valveHeight: 1.5 * FOOT_M, volume: 125 * US_GALLON_M3 },
  },
};

/**
 * A new point of a role, with starting values: figures to be changed, chosen so that the drawing means something at once, and round
 * in the units that the plan is shown in.
 *
 * Water and outlets lie at the ground where nothing better is known. All of them are common practice without a source, and
 * none is advice: a standpipe of 2 m or 6 ft with its inlet 0.3 m or 1 ft up, a tank of 1 m³ or 250 gal filled at 1.2 m or 4 ft and
 * drawn off at 0.1 m or 4 in, a trough of 0.5 m³ or 125 gal with its float valve at 0.5 m or 1.5 ft.
 */
export function startingPoint(
  role: PointRole,
  id: PointId,
  name: string,
  position: Position,
  units: UnitSystem = 'metric',
): PlanPoint {
  const base = { id, name, position, note: '' };
  const sizes = STARTING_SIZES[units];
  switch (role) {
    case 'source':
      return { role, ...base, waterLevel: 0, storage: 0 };
    case 'standpipe':
      return { role, ...base, ...sizes.standpipe };
    case 'pump':
      return { role, ...base, ...sizes.pump };
    case 'tank':
      return { role, ...base, ...sizes.tank, standing: 'candidate' };
    case 'trough':
      return { role, ...base, ...sizes.trough, herdShare: null, valveFlow: null };
  }
}
