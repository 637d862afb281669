import type { Plan } from '../model/plan.ts';
import { areaCodec } from './area-file.ts';
import type { JsonValue } from './json-text.ts';
import { pointToFile } from './point-file.ts';
import { routeCodec } from './route-file.ts';
import { settingsCodec } from './settings-file.ts';

/** Lines no longer than this are kept whole. */
const lineWidth = 110;

/** JSON text that people can read and compare: two spaces a level, short objects and positions on one line each. */
function formatJson(value: JsonValue, level = 0): string {
  const short = compact(value);
  if (short.length + 2 * level <= lineWidth && !holdsObjects(value)) return short;
  const inner = '  '.repeat(level + 1);
  const outer = '  '.repeat(level);
  if (isList(value)) {
    return `[\n${value.map((item) => inner + formatJson(item, level + 1)).join(',\n')}\n${outer}]`;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).map(([key, item]) => {
      return `${inner}${JSON.stringify(key)}: ${formatJson(item, level + 1)}`;
    });
    return `{\n${entries.join(',\n')}\n${outer}}`;
  }
  return short;
}

function compact(value: JsonValue): string {
  if (isList(value)) return `[${value.map(compact).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${compact(item)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

/** An object that holds further objects is always opened up, however short. */
function holdsObjects(value: JsonValue): boolean {
  if (typeof value !== 'object' || value === null || isList(value)) return false;
  return Object.values(value).some((item) => typeof item === 'object' && item !== null && !isList(item));
}

function isList(value: JsonValue): value is readonly JsonValue[] {
  return Array.isArray(value);
}

/** The text of a plan file: settings first, then points and routes in their order. Reading it gives the plan back exactly. */
export function writePlan(plan: Plan): string {
  return `${formatJson({
    type: 'FeatureCollection',
    rillwright: settingsCodec.toFile(plan),
    features: [
      ...plan.points.map(pointToFile),
      ...plan.routes.map(routeCodec.toFile),
      ...plan.areas.map(areaCodec.toFile),
    ],
  })}\n`;
}
