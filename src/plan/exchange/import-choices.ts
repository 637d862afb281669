import type { Metres } from '../../units/quantity.ts';
import type { Plan, PointRole, RouteRole } from '../model/plan.ts';
import type { ImportPreview } from './import-preview.ts';

/** Endings of files with points and tracks, for the `accept` attribute of a file input. */
export const importAccept = '.gpx,.kml,.geojson,.json,.csv,.tsv,.txt';

export interface PointChoice {
  /** Key of the item in the preview. */
  readonly item: string;
  readonly role: PointRole;
}

export interface LineChoice {
  readonly item: string;
  readonly role: RouteRole;
}

/** What the user takes of a file, and as what. */
export interface ImportChoices {
  readonly points: readonly PointChoice[];
  readonly lines: readonly LineChoice[];
  /** How far the end of a line may lie from the point that it is joined to. */
  readonly reach: Metres;
  /** How far a simplified line may leave the one in the file; 0 keeps every vertex. */
  readonly tolerance: Metres;
}

/** Common practice, no source: a hand-held receiver under trees is off by some metres, twice over for two readings. */
export const usualReach: Metres = 15;
/** Common practice, no source: below what a hand-held receiver tells apart. */
export const usualTolerance: Metres = 1;

const SINGLE: ReadonlySet<PointRole> = new Set<PointRole>(['source', 'standpipe', 'pump']);

/** Every readable item as what its name speaks of; roles a plan has once go to the first that speaks of them, if free. */
export function suggestChoices(plan: Plan, preview: ImportPreview): ImportChoices {
  const taken = new Set<PointRole>(plan.points.map(({ role }) => role).filter((role) => SINGLE.has(role)));
  const points: PointChoice[] = [];
  const lines: LineChoice[] = [];
  for (const item of preview.items) {
    if (item.problems.length > 0) continue;
    if (item.kind === 'line') {
      if (item.suggested !== null) lines.push({ item: item.key, role: item.suggested });
    } else if (item.suggested !== null && !taken.has(item.suggested)) {
      if (SINGLE.has(item.suggested)) taken.add(item.suggested);
      points.push({ item: item.key, role: item.suggested });
    }
  }
  return { points, lines, reach: usualReach, tolerance: usualTolerance };
}
