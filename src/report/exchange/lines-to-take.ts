import type { Position } from '../../geodesy/position.ts';
import type { Plan } from '../../plan/model/plan.ts';

/** Everything of a plan that stands on ground: its lines, and each point as a line of one place. */
export function linesOf(plan: Plan): readonly (readonly Position[])[] {
  return [...plan.points.map(({ position }) => [position]), ...plan.routes.map(({ vertices }) => vertices)];
}
