import type { Plan, PlanRoute, PumpSheet, TankPoint } from '../../src/plan/model/plan.ts';

const at = (east: number, north: number) => ({ lon: -40 + east / 88_000, lat: 38 + north / 111_000 });
const point = (id: string) => ({ id, name: id, note: '' });

export const litresPerMinute = (q: number) => q / 60_000;

export const sheet: PumpSheet = {
  kind: 'sheet',
  label: 'invented pump',
  count: 1,
  driveBore: 0.035,
  intakeLeast: litresPerMinute(10),
  intakeMost: litresPerMinute(25),
  intakeSet: null,
  efficiency: { low: 0.35, likely: 0.5, high: 0.65 },
  efficiencyCurve: [],
  leastDeliveryHead: null,
  measured: null,
};

export const tank: TankPoint = {
  ...point('tank'),
  role: 'tank',
  position: at(200, 300),
  inletHeight: 2,
  outletHeight: 0.2,
  volume: 5,
  standing: 'candidate',
};

export function route(id: string, role: PlanRoute['role'], from: string, to: string, pipe: string): PlanRoute {
  const where = (name: string) => points.find((p) => p.id === name)?.position ?? at(0, 0);
  return {
    id,
    role,
    name: id,
    from,
    to,
    vertices: [where(from), where(to)],
    pipe,
    fittings: [],
    summits: 'closed',
    note: '',
  };
}

const points: Plan['points'] = [
  { ...point('spring'), role: 'source', position: at(0, 0), waterLevel: 0, storage: 0.5 },
  { ...point('standpipe'), role: 'standpipe', position: at(60, 0), inletHeight: 0.3, topHeight: 2.2, bore: 0.1 },
  { ...point('ram'), role: 'pump', position: at(90, 0), wasteValveHeight: 0.2 },
  tank,
  {
    ...point('trough'),
    role: 'trough',
    position: at(250, 350),
    valveHeight: 0.6,
    volume: 1,
    herdShare: null,
    valveFlow: null,
  },
];

/** A small system that works: 4 m of fall, 25 m of lift, 20 L/min. Invented. */
export const workingPlan: Plan = {
  name: 'invented',
  units: 'metric',
  waterTemperature: 10,
  points,
  routes: [
    route('supply', 'supply', 'spring', 'standpipe', 'pe63'),
    route('drive', 'drive', 'standpipe', 'ram', 'steel'),
    route('delivery', 'delivery', 'ram', 'tank', 'pe25'),
    route('gravity', 'gravity', 'tank', 'trough', 'pe25'),
  ],
  areas: [],
  pipes: [
    { id: 'pe63', kind: 'row', row: 'pe100-sdr17-63' },
    { id: 'steel', kind: 'row', row: 'steel-sch40-1.25in' },
    { id: 'pe25', kind: 'row', row: 'pe100-sdr11-25' },
  ],
  pump: sheet,
  yieldReadings: [{ kind: 'stated', flow: litresPerMinute(20), plusMinus: litresPerMinute(2) }],
  dryShare: 0.9,
  dryShareDoubt: 0,
  leftInStream: 0,
  herd: [{ kind: 'own', label: 'invented herd', needPerDay: 0.05, count: 15 }],
  year: [],
  measurements: [],
  materials: { currency: '', allowance: 0, prices: [] },
  mapTiles: null,
  confidence: 0.9,
  terrain: null,
};

/** Ground heights under its points, m, and lengths of its routes, m. */
export const workingHeights = { spring: 104.5, standpipe: 103.4, ram: 100, tank: 123, trough: 118 };
export const workingLengths = { supply: 60, drive: 30, delivery: 300, gravity: 80 };
