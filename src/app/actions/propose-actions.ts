import { addRoute } from '../../plan/edits/edit-routes.ts';
import { draftEdit, dropDraft } from '../../plan/edits/history.ts';
import { lineEndHeight, type ProposableLine } from '../../report/tables/proposable-lines.ts';
import type { RouteProposal } from '../../siting/lines/route-proposal.ts';
import { USUAL_ROUTE_SETTINGS } from '../../siting/lines/route-settings.ts';
import { askedSearch, job, type LineSearch, lineSearch, type SearchedLine } from '../state/jobs-store.ts';
import { announcement, history, panel, terrain } from '../state/store.ts';
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

function settle(line: SearchedLine, proposal: RouteProposal): void {
  if (proposal.kind !== 'route') {
    askedSearch.value = { kind: 'none', line, why: proposal };
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
  if (search?.kind === 'found') history.value = dropDraft(history.value);
  askedSearch.value = null;
}
