import { lineString, nearestPointOnLine } from '@turf/turf';
import type { Position } from '../../geodesy/position.ts';
import { addRoute } from '../../plan/edits/edit-routes.ts';
import { draftEdit, dropDraft } from '../../plan/edits/history.ts';
import { lineEndHeight, type ProposableLine, proposableLines } from '../../report/tables/proposable-lines.ts';
import { laidAnyway, type RouteProposal } from '../../siting/lines/route-proposal.ts';
import { USUAL_ROUTE_SETTINGS } from '../../siting/lines/route-settings.ts';
import type { Metres } from '../../units/quantity.ts';
import { askedSearch, job, type LineSearch, lineSearch, type SearchedLine } from '../state/jobs-store.ts';
import { spot } from '../state/spot-store.ts';
import { announcement, cursor, history, panel, selection, terrain } from '../state/store.ts';
import { joinPoints } from './edit-actions.ts';

/** Looks for a line between two points; what is found is shown as a draft until it is laid or left. */
export async function proposeLine({ role, from, to }: ProposableLine): Promise<void> {
  leaveProposal();
  const ground = terrain.value;
  if (ground === null) return;
  const line: SearchedLine = { role, from: from.id, to: to.id, ends: [from.position, to.position] };
  const stop = new AbortController();
  askedSearch.value = { kind: 'looking', line, followed: 0, stop };
  const current = () => askedSearch.value?.kind === 'looking' && askedSearch.value.stop === stop;
  const request = {
    role,
    from: { position: from.position, height: lineEndHeight(from, 'from') },
    to: { position: to.position, height: lineEndHeight(to, 'to') },
    settings: USUAL_ROUTE_SETTINGS,
  };
  try {
    const proposal = await ground.proposeRoute(request, {
      signal: stop.signal,
      onProgress: ({ done }) => {
        // A sign of life carries no count.
        if (current() && done > 0) askedSearch.value = { kind: 'looking', line, followed: done, stop };
      },
    });
    if (current()) settle(line, proposal);
  } catch (error) {
    if (current())
      askedSearch.value = { kind: 'failed', line, reason: error instanceof Error ? error.message : String(error) };
  }
}

/** Looks for a line from elsewhere on the page and turns to where it is shown. */
export function proposeInTables(line: ProposableLine): void {
  panel.value = 'jobs';
  job.value = line.role === 'delivery' ? 'tanks' : 'pipe';
  void proposeLine(line);
}

/** Looks for a line to every tank that has none and lays each; where none is found, what stands against it is shown and the search ends. */
export async function proposeToAll(): Promise<void> {
  panel.value = 'jobs';
  job.value = 'tanks';
  for (const line of proposableLines(history.value.present).filter(({ role }) => role === 'delivery')) {
    await proposeLine(line);
    if (lineSearch.value?.kind !== 'found') return;
    layProposal();
  }
}

function settle(line: SearchedLine, proposal: RouteProposal): void {
  if (proposal.kind !== 'route') {
    askedSearch.value = { kind: 'none', line, why: proposal, anyway: laidAnyway(proposal) };
    showRefusal();
    return;
  }
  const routes = proposal.other === null ? [proposal] : [proposal, proposal.other];
  askedSearch.value = { kind: 'found', line, routes, ground: proposal.ground, shown: 0 };
  announcement.value = 'A line is proposed.';
  showProposal(0);
}

/** Shows one of the lines that were found on map and profile, and in the numbers, without making it a step. */
export function showProposal(shown: number): void {
  const search = lineSearch.value;
  if (search?.kind !== 'found') return;
  const route = routeOf(search, shown);
  const made = route && addRoute(history.value.present, route);
  if (made === null || !made.ok) return;
  askedSearch.value = { ...search, shown };
  history.value = draftEdit(history.value, made.value);
}

/** Marks on map and profile where a line was refused, and shows the best one that was found. */
export function showRefusal(): void {
  const search = lineSearch.value;
  if (search?.kind !== 'none') return;
  const { why, anyway } = search;
  if (why.kind === 'blocked' || why.kind === 'no-height') spot.value = { position: why.at };
  const made = anyway && addRoute(history.value.present, refusedRoute(search.line, anyway));
  if (!made?.ok) return;
  history.value = draftEdit(history.value, made.value);
  const drawn = made.value.plan.routes.at(-1);
  if (drawn === undefined || why.kind !== 'blocked') return;
  selection.value = { kind: 'route', id: drawn.id, vertex: null };
  cursor.value = { route: drawn.id, at: alongOf(drawn.vertices, why.at) };
}

/** Distance along a line of the place on it that is nearest to another. */
function alongOf(vertices: readonly Position[], { lon, lat }: Position): Metres {
  const line = lineString(vertices.map((vertex) => [vertex.lon, vertex.lat]));
  return nearestPointOnLine(line, [lon, lat], { units: 'meters' }).properties.lineDistance;
}

type Anyway = NonNullable<Extract<LineSearch, { kind: 'none' }>['anyway']>;

const refusedRoute = ({ role, from, to }: SearchedLine, { route, trench }: Anyway) => ({
  role,
  from,
  to,
  between: route.vertices.slice(1, -1),
  trenchDepth: trench,
});

/** Lays a line that was refused, in the trench that it needs; one step to undo. */
export function layAnyway(): void {
  const search = lineSearch.value;
  if (search?.kind !== 'none' || search.anyway === null) return;
  const route = refusedRoute(search.line, search.anyway);
  leaveProposal();
  joinPoints(route);
}

/** Lays the line that is shown; one step to undo. */
export function layProposal(): void {
  const search = lineSearch.value;
  if (search?.kind !== 'found') return;
  const route = routeOf(search, search.shown);
  leaveProposal();
  if (route !== null) joinPoints(route);
}

function routeOf({ line, routes }: Extract<LineSearch, { kind: 'found' }>, shown: number) {
  const route = routes[shown];
  if (route === undefined) return null;
  const { role, from, to } = line;
  return { role, from, to, between: route.vertices.slice(1, -1) };
}

/** Stops looking, or lets go of what was found; the plan is as it was. */
export function leaveProposal(): void {
  const search = askedSearch.value;
  if (search?.kind === 'looking') search.stop.abort();
  if (search?.kind === 'found' || search?.kind === 'none') {
    history.value = dropDraft(history.value);
    spot.value = null;
  }
  askedSearch.value = null;
}
