import type { Site } from '../system.ts';
import { type Judged, judge, undecided } from './finding.ts';

/** Places where the DEM says nothing: they are to be walked, whatever the rest says. */
export function judgeGround({ plan, heights, profiles }: Site): Judged[] {
  const points = plan.points
    .filter((p) => heights.node(p.id) === null)
    .map((p) => judge('point-unknown', plan.confidence, { about: p.id, spread: undecided(1), limit: 0 }));
  const lines = [...profiles.values()]
    .filter((p) => p.void > 0)
    .map((p) => judge('ground-unknown', plan.confidence, { about: p.route.id, spread: undecided(p.void), limit: 0 }));
  return [...points, ...lines];
}
