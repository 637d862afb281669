import type { Plan } from '../model/plan.ts';
import { formatJson } from './format-json.ts';
import { pointToFile } from './point-file.ts';
import { routeCodec } from './route-file.ts';
import { settingsCodec } from './settings-file.ts';

/** The text of a plan file: settings first, then points and routes in their order. Reading it gives the plan back exactly. */
export function writePlan(plan: Plan): string {
  return `${formatJson({
    type: 'FeatureCollection',
    rillwright: settingsCodec.toFile(plan),
    features: [...plan.points.map(pointToFile), ...plan.routes.map(routeCodec.toFile)],
  })}\n`;
}
