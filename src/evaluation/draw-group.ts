import type { PlanRoute } from '../plan/plan.ts';
import type { Site } from './system.ts';

/**
 * What tells the nodes of lines from the source apart: what each of these lines takes is missed by everything behind the pump,
 * so that no two of them may move together. Nothing for every other line, and for the first of them.
 */
export function drawGroup({ arrangement }: Site, route: PlanRoute): string {
  const drawing = arrangement.gravity.filter((g) => g.from.role === 'source');
  const index = drawing.findIndex((g) => g.route.id === route.id);
  return index > 0 ? ` ${index}` : '';
}
