import type { Plan, PlanRoute, RouteRole } from '../../plan/model/plan.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { textWidth } from '../figure/text-room.ts';
import { ROUTE_WORDS } from '../words/role-words.ts';
import type { MapFrame } from './plan-map-frame.ts';

/** A place in the figure, px. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Where a route's bends lie in the figure. */
export function spotsOf(route: PlanRoute, frame: MapFrame): readonly Spot[] {
  return route.vertices.map(({ lon, lat }) => ({ x: frame.x(lon), y: frame.y(lat) }));
}

/** A route by its dash; the style sheet has the dashes by role. */
export function routeLine(route: PlanRoute, frame: MapFrame): FigureNode {
  const path = spotsOf(route, frame).map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`);
  return figureNode(
    'g',
    { class: `route ${route.role}`, 'data-id': route.id },
    figureNode('title', {}, route.name),
    figureNode('path', { class: 'route-ground', d: path.join('') }),
    figureNode('path', { class: 'route-line', d: path.join('') }),
  );
}

const RING = 4;

/** The lines of another plan beneath those of this one, without their roles. */
export function linesBeside({ routes }: Plan, frame: MapFrame): FigureNode {
  const lines = routes.map((route) => {
    const path = spotsOf(route, frame).map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`);
    return figureNode('path', { 'data-id': route.id, d: path.join('') });
  });
  return figureNode('g', { class: 'beside' }, ...lines);
}

/** The points of another plan as rings; where both have a point, its symbol covers the ring. */
export function pointsBeside({ points }: Plan, frame: MapFrame): FigureNode {
  const rings = points.map(({ position: { lon, lat } }) =>
    figureNode('circle', { cx: tenth(frame.x(lon)), cy: tenth(frame.y(lat)), r: RING }),
  );
  return figureNode('g', { class: 'beside' }, ...rings);
}

const ROLES: readonly RouteRole[] = ['supply', 'drive', 'delivery', 'gravity'];
const SAMPLE = 34;
const LABEL_SIZE = 11;

/** The kinds of line that the plan has, each with its dash, at the lower right. */
export function lineKinds(plan: Plan, { plot }: MapFrame): FigureNode {
  const y = plot.top + plot.height + 33;
  let right = plot.left + plot.width;
  const kinds = ROLES.filter((role) => plan.routes.some((route) => route.role === role)).toReversed();
  const drawn = kinds.map((role) => {
    const { name } = ROUTE_WORDS[role];
    const width = textWidth(name, LABEL_SIZE);
    const from = right - width - SAMPLE - 6;
    right = from - 12;
    return figureNode(
      'g',
      { class: `route ${role}` },
      figureNode('path', { class: 'route-line', d: `M${tenth(from)} ${tenth(y)}H${tenth(from + SAMPLE)}` }),
      figureNode('text', { x: from + SAMPLE + 6, y: y + 4 }, name),
    );
  });
  return figureNode('g', { class: 'line-kinds' }, ...drawn.toReversed());
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
