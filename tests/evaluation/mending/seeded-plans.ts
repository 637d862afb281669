import type { Position } from '../../../src/geodesy/position.ts';
import type { Plan, PlanPoint } from '../../../src/plan/model/plan.ts';

/** A small generator with a seed: the same plans wherever it runs. Mulberry32, public domain. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const METRES_PER_DEGREE = 111_320;

/** A place some metres to the east and north of another. */
export function moved({ lon, lat }: Position, east: number, north: number): Position {
  const wide = METRES_PER_DEGREE * Math.cos((lat * Math.PI) / 180);
  return { lon: lon + east / wide, lat: lat + north / METRES_PER_DEGREE };
}

/** The demo plan with points moved, pipes and pump changed and little or much water: what somebody draws who starts. */
export function seededPlan(demo: Plan, seed: number): Plan {
  const random = randomFrom(seed);
  const between = (low: number, high: number) => low + (high - low) * random();
  const pick = <T>(all: readonly T[]): T => all[Math.floor(random() * all.length)] as T;
  const place = (by: number) => (p: PlanPoint) => moved(p.position, between(-by, by), between(-by, by));
  const points = demo.points
    .filter((p) => p.role !== 'trough' && (p.role !== 'tank' || p.id === 'tank-shoulder'))
    .map((p): PlanPoint => {
      if (p.role === 'pump') return { ...p, position: place(8)(p), wasteValveHeight: pick([0, 0.1, 0.2, 0.5]) };
      if (p.role === 'standpipe')
        return { ...p, position: place(12)(p), topHeight: between(0.5, 3), inletHeight: between(0.2, 0.6) };
      if (p.role === 'tank') return { ...p, position: place(60)(p), volume: pick([0.5, 2, 10]) };
      return p;
    });
  const at = new Map(points.map((p) => [p.id, p.position]));
  const pipes = {
    supply: pick(['pe100-sdr17-63', 'pe100-sdr11-40', 'pe100-sdr11-32', 'pe100-sdr17-75']),
    drive: pick(['steel-sch40-1.25in', 'steel-sch40-1in', 'steel-sch40-2in', 'pe100-sdr11-40']),
    delivery: pick(['pe100-sdr11-25', 'pe100-sdr11-32', 'pe100-sdr7.4-16', 'pe100-sdr17-63']),
  };
  const routes = demo.routes.flatMap((r) => {
    const [from, to] = [at.get(r.from), at.get(r.to)];
    if (from === undefined || to === undefined || r.role === 'gravity') return [];
    return [
      {
        ...r,
        vertices: [from, ...r.vertices.slice(1, -1), to],
        pipe: r.role,
        summits: pick(['closed', 'vented'] as const),
      },
    ];
  });
  const flow = between(3, 40) / 60_000;
  const least = between(3, 20) / 60_000;
  return {
    ...demo,
    points,
    routes,
    pipes: Object.entries(pipes).map(([id, row]) => ({ id, kind: 'row' as const, row })),
    pump: {
      kind: 'sheet',
      label: 'invented',
      count: pick([1, 1, 1, 2]),
      driveBore: pick([0.0266, 0.035, 0.0525]),
      intakeLeast: least,
      intakeMost: least * between(1.5, 3),
      intakeSet: null,
      efficiency: null,
      efficiencyCurve: [],
      leastDeliveryHead: null,
      measured: null,
    },
    yieldReadings: [{ kind: 'stated', flow, plusMinus: flow * 0.1 }],
    dryShare: pick([1, 0.7, null]),
    herd: [{ kind: 'own', label: 'invented', needPerDay: 0.05, count: pick([5, 20, 60]) }],
    measurements: [],
  };
}
