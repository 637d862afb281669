import { accuracyFor } from '../../evaluation/site/heights.ts';
import type { Position } from '../../geodesy/position.ts';
import { addPoint } from '../../plan/edits/edit-points.ts';
import { addRoute } from '../../plan/edits/edit-routes.ts';
import { finishEdit } from '../../plan/edits/finish-edit.ts';
import { startHistory } from '../../plan/edits/history.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { USUAL_PLACE_SETTINGS } from '../../siting/places/pump-places.ts';
import { deliveryPipeOf } from '../../siting/reach/reach-of-plan.ts';
import { mergePlan } from '../../siting/systems/merge-plan.ts';
import { type SiteRequest, USUAL_SEARCH } from '../../siting/systems/site-request.ts';
import type { ReachAbout } from '../../worker/messages.ts';
import { desk, newId, type Sheet, sheets } from '../state/alternatives.ts';
import {
  chosenSystems,
  floodMark,
  type Pointed,
  pipeAtHand,
  placeSearch,
  pointed,
  reach,
  shownReach,
  wantedLift,
} from '../state/place-store.ts';
import { announcement, demo, grounded, history, selection, terrain, tool } from '../state/store.ts';
import { avoidedAreas } from './area-actions.ts';
import { layOut } from './desk-actions.ts';
import { editOrSay, select } from './edit-actions.ts';

/** How far around source and pump a reach map goes, m, and how many cells the first, coarse one has. */
const REACH_MARGIN = 1500;
const COARSE_CELLS = 250_000;
const FINE_CELLS = 4_000_000;

let made: { readonly plan: Plan; readonly terrain: unknown } | null = null;

/** Shows or hides what would arrive on every cell. */
export function showReach(shown: boolean): void {
  const state = reach.value;
  if (state.kind === 'making') state.stop.abort();
  made = null;
  if (shown) void makeReach();
  else reach.value = { kind: 'off' };
}

/** Makes the reach map anew when the plan that it was made of has changed; the older one is given up. */
export function followReach(): void {
  const state = reach.value;
  const known = grounded.value;
  if (state.kind === 'off' || known === null) return;
  if (made === null || made.terrain !== terrain.value || !sameForReach(made.plan, known.plan)) void makeReach();
}

/** What a reach map depends on: everything but the places that the water goes to. */
function sameForReach(a: Plan, b: Plan): boolean {
  const points = (plan: Plan) => plan.points.filter((p) => p.role !== 'tank');
  const routes = (plan: Plan) => plan.routes.filter((r) => r.role === 'supply' || r.role === 'drive');
  const same = <T>(one: readonly T[], other: readonly T[]) =>
    one.length === other.length && one.every((each, k) => each === other[k]);
  return (
    same(points(a), points(b)) &&
    same(routes(a), routes(b)) &&
    a.areas === b.areas &&
    a.pump === b.pump &&
    a.pipes === b.pipes &&
    a.yieldReadings === b.yieldReadings &&
    a.herd === b.herd &&
    a.units === b.units &&
    a.confidence === b.confidence &&
    a.dryShare === b.dryShare &&
    a.leftInStream === b.leftInStream
  );
}

/** A coarse picture at once, then the whole. */
async function makeReach(): Promise<void> {
  const opened = terrain.value;
  const known = grounded.value;
  const before = reach.value;
  if (before.kind === 'making') before.stop.abort();
  if (opened === null || known === null) {
    reach.value = { kind: 'none', why: 'outside' };
    return;
  }
  const stop = new AbortController();
  made = { plan: known.plan, terrain: opened };
  let shown: ReachAbout | null = shownReach.value;
  reach.value = { kind: 'making', stop, share: 0, shown };
  const current = () => !stop.signal.aborted && reach.value.kind === 'making' && reach.value.stop === stop;
  const question = {
    plan: known.plan,
    ground: { ...known.ground, accuracy: accuracyFor(known.plan, opened.about) },
    margin: REACH_MARGIN,
    avoid: avoidedAreas(),
    units: known.plan.units,
  };
  try {
    for (const mostCells of [COARSE_CELLS, FINE_CELLS]) {
      const answer = await opened.reachMap(
        { ...question, mostCells },
        {
          signal: stop.signal,
          onProgress: ({ done, of }) => {
            if (current() && of > 0) reach.value = { kind: 'making', stop, share: done / of, shown };
          },
        },
      );
      if (!current()) return;
      if (answer.kind === 'none') {
        reach.value = answer;
        return;
      }
      shown = answer;
      if (answer.coarser <= 1 || mostCells === FINE_CELLS) break;
      reach.value = { kind: 'making', stop, share: 0, shown };
    }
    if (shown) reach.value = { kind: 'shown', about: shown };
    announcement.value = 'The map shows what would arrive.';
  } catch (error) {
    if (current()) reach.value = { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
  }
}

/** Lays the line of the reach map to a tank that was placed on it. */
export async function layReachLine(tank: string, position: Position): Promise<void> {
  const opened = terrain.value;
  if (shownReach.value === null || opened === null) return;
  const line = await opened.reachLine(position);
  const present = history.value.present;
  const pump = present.points.find((p) => p.role === 'pump');
  if (!line || !pump || !present.points.some((p) => p.id === tank)) return;
  const { id: _, ...pipe } = deliveryPipeOf(present);
  const route = { role: 'delivery' as const, from: pump.id, to: tank, between: line.vertices.slice(1, -1), pipe };
  const laid = editOrSay((plan) => {
    const made = addRoute(plan, route);
    if (!made.ok || !line.vented) return made;
    const routes = made.value.plan.routes.map((r) => (r.to === tank ? { ...r, summits: 'vented' as const } : r));
    return finishEdit(plan, { ...made.value.plan, routes }, made.value.label);
  });
  if (laid) select({ kind: 'point', id: tank });
}

/** Places a tank where the map was clicked, with its line. */
export async function placeTankWithLine(position: Position): Promise<void> {
  if (!editOrSay((plan) => addPoint(plan, 'tank', position))) return;
  const tank = history.value.present.points.at(-1);
  tool.value = 'select';
  if (tank) await layReachLine(tank.id, position);
}

/** Looks for places and systems for the source of the plan. */
export async function lookForPlaces(): Promise<void> {
  const opened = terrain.value;
  if (opened === null) return;
  leavePlaces();
  const stop = new AbortController();
  placeSearch.value = { kind: 'looking', share: 0, stop };
  const current = () => placeSearch.value.kind === 'looking' && placeSearch.value.stop === stop;
  try {
    const outcome = await opened.siteSystems(requestOf(history.value.present), {
      signal: stop.signal,
      onProgress: ({ done, of }) => {
        if (current() && of > 0) placeSearch.value = { kind: 'looking', share: done / of, stop };
      },
    });
    if (!current()) return;
    if (outcome.kind !== 'answer') {
      placeSearch.value = { kind: 'failed', reason: WHY[outcome.kind] };
      return;
    }
    placeSearch.value = { kind: 'found', answer: outcome.answer };
    announcement.value = `${outcome.answer.places.length} places and ${outcome.answer.systems.length} systems found.`;
  } catch (error) {
    if (current())
      placeSearch.value = { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
  }
}

const WHY = {
  'no-source': 'the plan has no source yet',
  'no-yield': 'nobody has read the source yet: say under Inputs what it gives',
  'no-height': 'the elevation has no height at the source or at a tank',
} as const;

/** The plan as the search takes it: what is drawn between source and tanks is left out. */
function requestOf(present: Plan): SiteRequest {
  const points = present.points.filter((p) => p.role === 'source' || p.role === 'tank');
  return {
    ...USUAL_SEARCH,
    base: { ...present, points, routes: [], measurements: [], pump: present.pump },
    lift: wantedLift.value,
    avoid: avoidedAreas(),
    ownPipe: ownPipeOf(present),
    settings: { ...USUAL_PLACE_SETTINGS, floodMark: floodMark.value },
  };
}

/** The pipe of the plan's delivery line, where it is one of the handbook and so many metres of it are at hand. */
function ownPipeOf(present: Plan): SiteRequest['ownPipe'] {
  const pipe = deliveryPipeOf(present);
  return pipeAtHand.value === null || pipe.kind !== 'row' ? null : { pipe: pipe.row, length: pipeAtHand.value };
}

export function setPipeAtHand(length: number | null): void {
  pipeAtHand.value = length;
}

export function leavePlaces(): void {
  const search = placeSearch.value;
  if (search.kind === 'looking') search.stop.abort();
  placeSearch.value = { kind: 'idle' };
  pointed.value = null;
  chosenSystems.value = [];
}

export function pointTo(at: Pointed): void {
  pointed.value = at;
}

export function setWantedLift(lift: number): void {
  wantedLift.value = lift;
}

export function setFloodMark(height: number): void {
  floodMark.value = height;
}

const MOST_CHOSEN = 3;

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** Chooses a system or lets it go; three at most. */
export function chooseSystem(index: number, chosen: boolean): void {
  const others = chosenSystems.value.filter((k) => k !== index);
  chosenSystems.value = chosen ? [...others, index].slice(-MOST_CHOSEN) : others;
}

/** Lays the chosen systems beside the plan as its alternatives, and turns to the first of them. */
export function takeChosen(nameOf: (name: string) => string): void {
  const search = placeSearch.value;
  if (search.kind !== 'found') return;
  const { systems } = search.answer;
  const present = history.value.present;
  const added = chosenSystems.value
    .toSorted((a, b) => a - b)
    .flatMap((index): Sheet[] => {
      const system = systems[index];
      if (!system) return [];
      const plan: Plan = {
        ...mergePlan(present, system.plan),
        name: `${capital(nameOf(system.name))}: ${present.name}`,
      };
      return [{ id: newId(), history: startHistory(plan), savedPlan: present, demo: demo.value }];
    });
  const [first] = added;
  if (!first) return;
  leavePlaces();
  layOut({ ...desk.value, shown: first.id, sheets: [...sheets.value, ...added] });
  announcement.value = `${added.length} alternatives: ${first.history.present.name} is shown.`;
}

/** Takes a place into the plan: standpipe, pump and lines as proposed, one step to undo. */
export function takePlace(index: number): void {
  const search = placeSearch.value;
  const place = search.kind === 'found' ? search.answer.places[index] : undefined;
  if (!place) return;
  if (!editOrSay((plan) => finishEdit(plan, mergePlan(plan, place.plan), { code: 'replace-plan', name: '' }))) return;
  leavePlaces();
  selection.value = null;
}
