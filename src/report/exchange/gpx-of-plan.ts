import type { Position } from '../../geodesy/position.ts';
import { cleanName, cleanNote } from '../../plan/exchange/clean-text.ts';
import type { Plan, PlanPoint, PlanRoute } from '../../plan/model/plan.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { svgText } from '../figure/figure-svg.ts';

/** A tenth of a millimetre on the ground. */
const DECIMALS = 9;

/**
 * A plan's points as waypoints and its lines as routes, with their roles as types and their notes as descriptions.
 *
 * Heights are left out: those of the plan are the DEM's or measured on site, and a receiver would take them for its own.
 * Source: GPX 1.1 Schema Documentation, TopoGrafix, 2004 (order of elements, decimals without exponent, longitude below 180).
 */
export function gpxOfPlan(plan: Plan): string {
  const name = textNode('name', cleanName(plan.name));
  const root = figureNode(
    'gpx',
    { xmlns: 'http://www.topografix.com/GPX/1/1', version: '1.1', creator: 'Rillwright' },
    name === null ? null : figureNode('metadata', {}, name),
    ...plan.points.map(waypoint),
    ...plan.routes.map((route) => routeNode(plan, route)),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svgText(root)}`;
}

function waypoint(point: PlanPoint): FigureNode {
  return figureNode('wpt', placed(point.position), ...about(point));
}

function routeNode(plan: Plan, route: PlanRoute): FigureNode {
  const last = route.vertices.length - 1;
  const stops = route.vertices.map((position, index) => {
    const end = index === 0 ? route.from : index === last ? route.to : null;
    const point = plan.points.find(({ id }) => id === end);
    return figureNode('rtept', placed(position), point === undefined ? null : textNode('name', cleanName(point.name)));
  });
  return figureNode('rte', {}, ...about(route), ...stops);
}

/** Name, description and type, in the order of the schema. */
function about({ name, note, role }: PlanPoint | PlanRoute): readonly (FigureNode | null)[] {
  return [textNode('name', cleanName(name)), textNode('desc', cleanNote(note)), textNode('type', role)];
}

function textNode(tag: string, text: string): FigureNode | null {
  return text === '' ? null : figureNode(tag, {}, text);
}

function placed({ lon, lat }: Position): { readonly lat: string; readonly lon: string } {
  const written = decimal(lon);
  return { lat: decimal(lat), lon: written === '180' ? '-180' : written };
}

/** A decimal without exponent and without zeros at its end. */
function decimal(degrees: number): string {
  const fixed = degrees.toFixed(DECIMALS).replace(/\.?0+$/, '');
  return fixed === '-0' ? '0' : fixed;
}
