import type { Position } from '../../../src/geodesy/position.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import type { GridTerrain } from '../../../src/terrain/ground/ground-window.ts';
import { moved, randomFrom, seededPlan } from './seeded-plans.ts';

/** Where somebody would look: a spring, the pump below it, the tank above it. Heights against the spring, m. */
export interface Lie {
  readonly fall: readonly [least: number, most: number];
  readonly rise: readonly [least: number, most: number];
}

const TRIES = 1500;
const AROUND = 24;
const NEAREST = 20;
const FARTHEST = 250;

/**
 * A made-up plan of a seed on any ground: a spring, a pump some way below it, a tank somewhere above it, straight lines between
 * them. Null where the ground has no such places.
 */
export async function placedPlan(demo: Plan, terrain: GridTerrain, seed: number, lie: Lie): Promise<Plan | null> {
  const random = randomFrom(seed * 7919);
  const lons = terrain.about.outline.map(({ lon }) => lon);
  const lats = terrain.about.outline.map(({ lat }) => lat);
  const within = (all: readonly number[]) => {
    const [low, high] = [Math.min(...all), Math.max(...all)];
    return low + (0.1 + 0.8 * random()) * (high - low);
  };
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const spring: Position = { lon: within(lons), lat: within(lats) };
    const ring = Array.from({ length: AROUND }, () => {
      const angle = 2 * Math.PI * random();
      const far = NEAREST + (FARTHEST - NEAREST) * random();
      return moved(spring, far * Math.cos(angle), far * Math.sin(angle));
    });
    const heights = await terrain.groundAt([spring, ...ring]);
    const [start, ...rest] = heights.map(({ ground }) => ground);
    if (start == null || rest.some((z) => z === null)) continue;
    const above = rest.map((z) => (z ?? start) - start);
    const pump = ring.find((_, i) => -(above[i] ?? 0) > lie.fall[0] && -(above[i] ?? 0) < lie.fall[1]);
    const tank = ring.find((_, i) => (above[i] ?? 0) > lie.rise[0] && (above[i] ?? 0) < lie.rise[1]);
    if (pump && tank) return laidBetween(seededPlan(demo, seed), { spring, pump, tank });
  }
  return null;
}

function laidBetween(
  plan: Plan,
  { spring, pump, tank }: { readonly spring: Position; readonly pump: Position; readonly tank: Position },
): Plan {
  const standpipe = {
    lon: spring.lon + 0.8 * (pump.lon - spring.lon),
    lat: spring.lat + 0.8 * (pump.lat - spring.lat),
  };
  const places = { source: spring, pump, standpipe, tank, trough: tank } as const;
  const points = plan.points.map((p) => ({ ...p, position: places[p.role] }));
  const at = (id: string) => points.find((p) => p.id === id)?.position ?? spring;
  return { ...plan, points, routes: plan.routes.map((r) => ({ ...r, vertices: [at(r.from), at(r.to)] })) };
}
