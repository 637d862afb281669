import type { Plan } from '../../plan/model/plan.ts';
import type { Terrain } from '../../terrain/grid/ground.ts';
import { accuracyFor } from '../site/heights.ts';
import type { Ground } from './evaluate.ts';
import { likelyGround } from './likely-ground.ts';

/**
 * Ask a terrain for everything a plan stands on: the ground under its points and along its routes.
 *
 * The only step of the way from plan to verdict that has a file behind it.
 */
export async function groundOfPlan(plan: Plan, terrain: Terrain, signal?: AbortSignal): Promise<Ground> {
  const points = await terrain.groundAt(
    plan.points.map((p) => p.position),
    signal,
  );
  const lines = await Promise.all(
    plan.routes.map(async (route) => [route.id, await terrain.groundAlong(route.vertices, signal)] as const),
  );
  const unknown = { ground: null, slope: 0, smoothing: 0 };
  const accuracy = accuracyFor(plan, terrain.about);
  const read = {
    points: new Map(plan.points.map((p, i) => [p.id, points[i] ?? unknown])),
    lines: new Map(lines),
    accuracy,
  };
  return likelyGround(plan, read, accuracy);
}
