import type { PlanRoute } from '../../plan/model/plan.ts';
import type { Site } from './site.ts';

/**
 * Which of the lines from the source to troughs a route is, from 0; null for every other. What each of these takes is missed
 * by everything behind the pump, so that the nodes of no two of them may move together.
 */
export function drawingIndex({ arrangement }: Site, route: PlanRoute): number | null {
  const drawing = arrangement.gravity.filter((g) => g.from.role === 'source');
  const index = drawing.findIndex((g) => g.route.id === route.id);
  return index < 0 ? null : index;
}
