import { lineString, simplify } from '@turf/turf';
import { offsetBetween } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Outcome, Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Edited } from '../edits/edit.ts';
import { finishEdit } from '../edits/finish-edit.ts';
import { nameFromId, newFeatureId, withPipe } from '../edits/new-id.ts';
import { mostFeatures } from '../file/read-features.ts';
import { startingPoint } from '../model/empty-plan.ts';
import type { Plan, PlanPoint, PlanRoute, PointId, PointRole, RouteId } from '../model/plan.ts';
import { startingPipe } from '../model/starting-pipe.ts';
import { cleanName, cleanNote, shownText } from './clean-text.ts';
import type { ImportChoices, LineChoice, PointChoice } from './import-choices.ts';
import type { FoundItem, FoundLine, FoundPoint, ImportPreview } from './import-preview.ts';
import { type JoinedLine, joinLine } from './join-line.ts';

/** Vertices simplified at a time: the work grows with the square of them in the worst track. */
const STRETCH = 1000;

/**
 * A track with the vertices left out that a straight line passes within the tolerance, measured in metres on a plane at each
 * stretch of a thousand vertices; ends of stretches stay. Every vertex kept is one of the file.
 *
 * Source: D. H. Douglas and T. K. Peucker, Algorithms for the reduction of the number of points required to represent a
 * digitized line or its caricature, Cartographica 10(2), 1973, pages 112-122.
 */
export function simplifyTrack(track: readonly Position[], tolerance: Metres): readonly Position[] {
  if (tolerance <= 0 || track.length < 3) return track;
  const kept: Position[] = track.slice(0, 1);
  for (let start = 0; start < track.length - 1; start += STRETCH) {
    kept.push(...simplifyStretch(track.slice(start, start + STRETCH + 1), tolerance).slice(1));
  }
  return kept;
}

function simplifyStretch(stretch: readonly Position[], tolerance: Metres): readonly Position[] {
  const [first] = stretch;
  if (first === undefined || stretch.length < 3) return stretch;
  const plane = stretch.map((position) => {
    const { east, north } = offsetBetween(first, position);
    return [east, north];
  });
  const { geometry } = simplify(lineString(plane), { tolerance, highQuality: true, mutate: true });
  return verticesAt(stretch, plane, geometry.coordinates);
}

/** The vertices whose places on the plane were kept, in order, with both ends. */
function verticesAt(
  stretch: readonly Position[],
  plane: readonly (readonly number[])[],
  kept: readonly (readonly number[])[],
): readonly Position[] {
  let next = 1;
  const last = stretch.length - 1;
  return stretch.filter((_, index) => {
    if (index === 0 || index === last) return true;
    const here = plane[index];
    const wanted = kept[next];
    if (here === undefined || wanted === undefined || here[0] !== wanted[0] || here[1] !== wanted[1]) return false;
    next += 1;
    return true;
  });
}

/** What became of a line of the file. */
export interface ImportedLine {
  readonly item: string;
  readonly route: RouteId;
  /** Vertices of the route, both ends among them. */
  readonly vertices: number;
  /** Vertices of the file left out by simplifying. */
  readonly dropped: number;
  /** Whether it was turned to run with the water. */
  readonly reversed: boolean;
  /** The points that its ends were moved to, and how far. */
  readonly from: { readonly point: PointId; readonly moved: Metres };
  readonly to: { readonly point: PointId; readonly moved: Metres };
}

/** The plan after an import: one step, undone as one. */
export interface Imported extends Edited {
  readonly points: readonly PointId[];
  readonly lines: readonly ImportedLine[];
}

/** Adds the chosen points and then the chosen lines of a file to a plan, all of them or none. */
export function importInto(plan: Plan, preview: ImportPreview, choices: ImportChoices): Outcome<Imported> {
  const chosen = checkedChoices(plan, preview, choices);
  if (!chosen.ok) return chosen;
  const withPoints = chosen.value.points.reduce(pointAdded, plan);
  const added = withPoints.points.slice(plan.points.length).map(({ id }) => id);
  const laid = linesAdded(withPoints, chosen.value.lines, choices);
  if (!laid.ok) return laid;
  const edit = finishEdit(plan, laid.value.plan, { code: 'import-items', name: cleanName(preview.file) });
  return edit.ok ? { ok: true, value: { ...edit.value, points: added, lines: laid.value.lines } } : edit;
}

interface Chosen {
  readonly points: readonly (PointChoice & { readonly found: FoundPoint })[];
  readonly lines: readonly (LineChoice & { readonly found: FoundLine })[];
}

function checkedChoices(plan: Plan, preview: ImportPreview, choices: ImportChoices): Outcome<Chosen> {
  const taker = new ItemTaker(preview);
  const points = choices.points.flatMap(({ item, role }) => {
    const found = taker.take(item, 'point');
    return found?.kind === 'point' ? { item, role, found } : [];
  });
  const lines = choices.lines.flatMap(({ item, role }) => {
    const found = taker.take(item, 'line');
    return found?.kind === 'line' ? { item, role, found } : [];
  });
  const counted = plan.points.length + plan.routes.length + points.length + lines.length;
  const problems = [...taker.problems, ...secondOfRole(plan, points), ...tooMany(counted)];
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: { points, lines } };
}

/** Hands out each item of a preview once, and says what is wrong with those that cannot be had. */
class ItemTaker {
  readonly problems: Problem[] = [];
  readonly #items: Map<string, FoundItem>;

  constructor(preview: ImportPreview) {
    this.#items = new Map(preview.items.map((item) => [item.key, item]));
  }

  take(key: string, kind: FoundItem['kind']): FoundItem | null {
    const found = this.#items.get(key) ?? null;
    this.#items.delete(key);
    if (found === null) {
      const expected = 'an item of the preview, each once';
      this.problems.push({ code: 'unknown-reference', path: '', found: shownText(key), expected });
    } else if (found.kind !== kind) {
      this.problems.push({ code: 'wrong-type', path: found.path, found: `a ${found.kind}`, expected: `a ${kind}` });
    } else {
      this.problems.push(...found.problems);
    }
    return found;
  }
}

function tooMany(features: number): readonly Problem[] {
  if (features <= mostFeatures) return [];
  const expected = `at most ${mostFeatures} in a plan`;
  return [{ code: 'too-many', path: '', found: `${features} points and routes`, expected }];
}

const SINGLE: readonly PointRole[] = ['source', 'standpipe', 'pump'];

function secondOfRole(plan: Plan, points: Chosen['points']): readonly Problem[] {
  return SINGLE.flatMap((role) => {
    const asRole = points.filter((choice) => choice.role === role);
    const beyond = plan.points.some((point) => point.role === role) ? asRole : asRole.slice(1);
    return beyond.map(({ found }) => ({
      code: 'second-of-role',
      path: found.path,
      found: `another ${role}`,
      expected: `one ${role} at most`,
    }));
  });
}

function pointAdded(plan: Plan, { role, found }: Chosen['points'][number]): Plan {
  const [position] = found.positions;
  if (position === undefined) return plan;
  const id = newFeatureId(plan, role);
  const point: PlanPoint = {
    ...startingPoint(role, id, found.name || nameFromId(id), position, plan.units),
    note: noteOf(found),
  };
  return { ...plan, points: [...plan.points, point] };
}

interface Laid {
  readonly plan: Plan;
  readonly lines: readonly ImportedLine[];
}

function linesAdded(before: Plan, chosen: Chosen['lines'], choices: ImportChoices): Outcome<Laid> {
  const problems: Problem[] = [];
  let laid: Laid = { plan: before, lines: [] };
  for (const choice of chosen) {
    const joined = joinLine(choice.found, before.points, { role: choice.role, reach: choices.reach });
    if (joined.ok) laid = lineAdded(laid, choice, { joined: joined.value, tolerance: choices.tolerance });
    else problems.push(...joined.problems);
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: laid };
}

interface Laying {
  readonly joined: JoinedLine;
  readonly tolerance: Metres;
}

function lineAdded({ plan, lines }: Laid, { role, found }: Chosen['lines'][number], laying: Laying): Laid {
  const { from, to, reversed, vertices: joined } = laying.joined;
  const vertices = simplifyTrack(joined, laying.tolerance);
  const id = newFeatureId(plan, role);
  const laid = withPipe(plan, startingPipe(role, plan.units));
  const route: PlanRoute = {
    id,
    role,
    name: found.name || nameFromId(id),
    from: from.point.id,
    to: to.point.id,
    vertices,
    pipe: laid.id,
    fittings: [],
    summits: 'closed',
    note: noteOf(found),
  };
  const line: ImportedLine = {
    item: found.key,
    route: id,
    vertices: vertices.length,
    dropped: joined.length - vertices.length,
    reversed,
    from: { point: from.point.id, moved: from.distance },
    to: { point: to.point.id, moved: to.distance },
  };
  return { plan: { ...plan, pipes: laid.pipes, routes: [...plan.routes, route] }, lines: [...lines, line] };
}

/** What the file says of it, and the heights that are kept aside as words: they have another zero than the DEM's. */
function noteOf({ note, heights }: FoundItem): string {
  if (heights === null) return note;
  const { lowest, highest } = heights;
  const range = lowest === highest ? `${lowest} m` : `${lowest} m to ${highest} m`;
  return cleanNote([`Height in the imported file: ${range}. Not used.`, note].filter((part) => part !== '').join('\n'));
}
