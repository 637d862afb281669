import type { Ground } from '../../src/evaluation/evaluate/evaluate.ts';
import { emptyPlan } from '../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { madeGround } from '../evaluation/made-ground.ts';
import { route as line } from '../evaluation/made-plan.ts';

const at = (east: number, north: number) => ({ lon: -40 + east / 88_000, lat: 38 + north / 111_000 });
const named = (id: string) => ({ id, name: id, note: '' });

/** A ram of 52.5 mm at the end of 18 m of steel under 3 m, and a tank 24 m higher at the end of a line that dips. Invented. */
export function madePlan(): { readonly plan: Plan; readonly ground: Ground } {
  const spring = { ...named('spring'), role: 'source' as const, position: at(0, 0), waterLevel: 0, storage: 0.5 };
  const ram = { ...named('ram'), role: 'pump' as const, position: at(18, 0), wasteValveHeight: 0 };
  const tank = {
    ...named('tank'),
    role: 'tank' as const,
    position: at(150, 150),
    inletHeight: 1,
    outletHeight: 0.1,
    volume: 5,
    standing: 'kept' as const,
  };
  const routes = [
    { ...line('drive', 'drive', 'spring', 'ram', 'steel'), vertices: [spring.position, ram.position] },
    { ...line('delivery', 'delivery', 'ram', 'tank', 'hose'), vertices: [ram.position, tank.position] },
  ];
  const pipe = { kind: 'own' as const, wall: 0.004, roughness: 1.5e-6, rating: null };
  const month = { season: 'summer' as const, airTemperature: null };
  const plan: Plan = {
    ...emptyPlan({ name: 'invented', units: 'metric' }),
    points: [spring, ram, tank],
    routes,
    pipes: [
      { ...pipe, id: 'steel', label: 'steel', material: 'steel', bore: 0.0525, roughness: 0.0001 },
      { ...pipe, id: 'hose', label: 'hose', material: 'pe', bore: 0.0266 },
    ],
    pump: {
      kind: 'ram',
      label: 'invented ram',
      count: 1,
      driveBore: 0.0525,
      wasteValveLoss: 6,
      checkValveLoss: 4,
      valveWeightHead: 0.375,
      valveStroke: 0.008,
      checkLag: 0.004,
      airChamber: 0.008,
      measured: null,
    },
    yieldReadings: [{ kind: 'stated', flow: 100 / 60_000, plusMinus: 5 / 60_000 }],
    dryShare: 1,
    leftInStream: 0,
    year: Array.from({ length: 12 }, (_, i) => ({ ...month, sourceShare: i >= 6 && i <= 8 ? 0.5 : 1 })),
  };
  const ground = madeGround(plan, {
    heights: { spring: 103, ram: 100, tank: 123 },
    lengths: { drive: 17.75, delivery: 200 },
    bumps: { delivery: (share) => dipping(200 * share) },
  });
  return { plan, ground };
}

/** Up to 108 m, down to 102 m at 60 m, and up again. */
function dipping(along: number): number {
  if (along <= 40) return 100 + (8 * along) / 40;
  if (along <= 60) return 108 - (6 * (along - 40)) / 20;
  if (along <= 80) return 102 + (6 * (along - 60)) / 20;
  return 108 + (15 * (along - 80)) / 120;
}
