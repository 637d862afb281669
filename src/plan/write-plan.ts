import { formatJson } from './file/format-json.ts';
import { pointToFile } from './file/point-file.ts';
import { routeCodec } from './file/route-file.ts';
import { settingsCodec } from './file/settings-file.ts';
import type { Plan } from './plan.ts';

/** The text of a plan file: settings first, then points and routes in their order. Reading it gives the plan back exactly. */
export function writePlan(plan: Plan): string {
  return `${formatJson({
    type: 'FeatureCollection',
    rillwright: settingsCodec.toFile(plan),
    features: [...plan.points.map(pointToFile), ...plan.routes.map(routeCodec.toFile)],
  })}\n`;
}
