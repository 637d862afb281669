import type { MeasureFirst } from '../../evaluation/result/evaluation.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Edit, Edited } from '../../plan/edits/edit.ts';
import { addPoint, movePoint, removePoint } from '../../plan/edits/edit-points.ts';
import { addRoute, removeRoute } from '../../plan/edits/edit-routes.ts';
import { deleteVertex, insertVertex, moveVertex } from '../../plan/edits/edit-vertices.ts';
import { setPump } from '../../plan/edits/edit-water.ts';
import {
  commit,
  commitDraft,
  draftEdit,
  dropDraft,
  goToStep,
  type History,
  redo,
  undo,
} from '../../plan/edits/history.ts';
import type {
  PhysicalRam,
  Plan,
  PlanRoute,
  PointId,
  PointRole,
  PumpSheet,
  RouteId,
  RouteRole,
} from '../../plan/model/plan.ts';
import { measuredFrom } from '../../report/words/measure-words.ts';
import { listedSteps, stepWords } from '../../report/words/step-words.ts';
import { positionAlong } from '../../terrain/ground/ground-place.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import type { DragPhase, MapSelection } from '../state/map-view-props.ts';
import { askedForm, beforeMeasured, otherPump } from '../state/measure-store.ts';
import { placeOf, spot } from '../state/spot-store.ts';
import {
  announcement,
  cursor,
  dragged,
  evaluation,
  grounded,
  history,
  panel,
  refusal,
  selection,
  tool,
} from '../state/store.ts';

/** Makes an edit of the present plan one step; what is wrong with it comes back for the field that asked. */
export function edit(make: (plan: Plan) => Edit): readonly Problem[] {
  const made = make(history.value.present);
  if (!made.ok) return made.problems;
  step(commit(history.value, made.value), made.value);
  return [];
}

/** Makes an edit that no field asked for; a refusal is shown over the map. */
export function editOrSay(make: (plan: Plan) => Edit): boolean {
  const problems = edit(make);
  sayRefusal(problems);
  return problems.length === 0;
}

/** Shows over the map what a button was refused for; nothing when it was not. */
export function sayRefusal(problems: readonly Problem[]): void {
  refusal.value = problems;
}

/** Steps that enter something measured. */
const MEASURED: ReadonlySet<string> = new Set(['set-measurement', 'set-readings']);

function step(next: History, { label }: Pick<Edited, 'label'>): void {
  if (next.present !== history.value.present) {
    announcement.value = stepWords(label);
    beforeMeasured.value = MEASURED.has(label.code) ? evaluation.value : null;
  }
  history.value = next;
}

export function undoStep(): void {
  const last = history.value.past.at(-1);
  history.value = undo(history.value);
  if (last !== undefined) announcement.value = `Undone: ${stepWords(last.label)}`;
  dropLostSelection();
}

export function redoStep(): void {
  const [next] = history.value.future;
  history.value = redo(history.value);
  if (next !== undefined) announcement.value = `Redone: ${stepWords(next.label)}`;
  dropLostSelection();
}

/** Goes back or forward to any step of the list. */
export function jumpToStep(steps: number): void {
  history.value = goToStep(history.value, steps);
  const now = listedSteps(history.value).find(({ standing }) => standing === 'now');
  if (now !== undefined) announcement.value = `The plan is as after: ${now.words}`;
  dropLostSelection();
}

export function placePoint(role: PointRole, position: Position): void {
  if (!editOrSay((plan) => addPoint(plan, role, position))) return;
  const placed = history.value.present.points.at(-1);
  tool.value = 'select';
  if (placed !== undefined) select({ kind: 'point', id: placed.id });
}

export interface DrawnLine {
  readonly role: RouteRole;
  readonly vertices: readonly Position[];
  readonly from: PointId | null;
  readonly to: PointId | null;
}

/** Takes a drawn line as a route; its ends must have met points. */
export function drawLine({ role, vertices, from, to }: DrawnLine): void {
  if (from === null || to === null) {
    refusal.value = [
      {
        code: 'loose-end',
        path: '',
        found: `a line whose ${from === null ? 'start' : 'end'} meets no fitting point`,
        expected: 'a line that starts and ends on points of the plan',
      },
    ];
    return;
  }
  joinPoints({ role, from, to, between: vertices.slice(1, -1) });
}

export function joinPoints(route: {
  readonly role: RouteRole;
  readonly from: PointId;
  readonly to: PointId;
  readonly between: readonly Position[];
  readonly trenchDepth?: Metres;
}): void {
  if (!editOrSay((plan) => addRoute(plan, route))) return;
  const drawn = history.value.present.routes.at(-1);
  tool.value = 'select';
  if (drawn !== undefined) select({ kind: 'route', id: drawn.id, vertex: null });
}

export function dragPoint(id: PointId, position: Position, phase: DragPhase): void {
  dragged.value = phase === 'move' ? id : null;
  drag((plan) => movePoint(plan, id, position), phase);
}

export function dragVertex(route: RouteId, index: number, position: Position, phase: DragPhase): void {
  drag((plan) => moveVertex(plan, route, index, position), phase);
}

/** While something is dragged the plan is a draft; letting go makes it one step. */
function drag(make: (plan: Plan) => Edit, phase: DragPhase): void {
  if (phase === 'cancel') {
    history.value = dropDraft(history.value);
    return;
  }
  const made = make(history.value.present);
  if (!made.ok) {
    refusal.value = made.problems;
    history.value = dropDraft(history.value);
    return;
  }
  const drafted = draftEdit(history.value, made.value);
  if (phase === 'move') history.value = drafted;
  else step(commitDraft(drafted), made.value);
}

export function putVertex(route: RouteId, index: number, position: Position): void {
  if (editOrSay((plan) => insertVertex(plan, route, index, position)))
    select({ kind: 'route', id: route, vertex: index });
}

/** Deletes what is selected; undo brings it back. */
export function remove(what: MapSelection): void {
  const done = editOrSay((plan) => removed(plan, what));
  if (done) dropLostSelection();
}

function removed(plan: Plan, what: MapSelection): Edit {
  if (what.kind === 'point') return removePoint(plan, what.id);
  return what.vertex === null ? removeRoute(plan, what.id) : deleteVertex(plan, what.id, what.vertex);
}

/** Selects without turning to another panel: whoever works on the map keeps the numbers in view. */
export function select(what: MapSelection | null): void {
  selection.value = what;
  spot.value = null;
  if (what?.kind === 'route' && what.vertex !== null) showBend(what.id, what.vertex);
}

/** Marks a bend in the profile and says which it is; ground that is older than the bend has no place for it. */
function showBend(id: RouteId, vertex: number): void {
  const route = history.value.present.routes.find((each) => each.id === id);
  if (route === undefined) return;
  announcement.value = `Bend ${vertex} of ${route.vertices.length - 2}, ${route.name}`;
  const line = grounded.value?.ground.lines.get(id);
  const sample = line?.vertices.length === route.vertices.length ? line.vertices[vertex] : undefined;
  const at = sample === undefined ? undefined : line?.at[sample];
  if (at !== undefined) cursor.value = { route: id, at };
}

/** Selects and turns to the details. */
export function showDetails(what: MapSelection): void {
  selection.value = what;
  spot.value = null;
  panel.value = 'selected';
}

/** A selection whose point or route is gone selects nothing; a vertex that is gone leaves its route selected. */
function dropLostSelection(): void {
  const chosen = selection.value;
  if (chosen === null) return;
  const { points, routes } = history.value.present;
  if (chosen.kind === 'point') {
    if (!points.some(({ id }) => id === chosen.id)) selection.value = null;
    return;
  }
  const route = routes.find(({ id }) => id === chosen.id);
  const inner = chosen.vertex !== null && route !== undefined && chosen.vertex < route.vertices.length - 1;
  selection.value = route === undefined ? null : { ...chosen, vertex: inner ? chosen.vertex : null };
}

/**
 * Shows on map and profile what a sentence speaks of, and leaves the panel that it stands in where it is. `along`: how far from
 * the start of a line, when it speaks of one place of it.
 */
export function showPlace(id: string, along: Metres | null = null): void {
  const { points, routes } = history.value.present;
  const route = routes.find((each) => each.id === id);
  if (route === undefined && !points.some((point) => point.id === id)) return;
  selection.value = route === undefined ? { kind: 'point', id } : { kind: 'route', id, vertex: null };
  const line = route && grounded.value?.ground.lines.get(id);
  const place = line && along !== null ? positionAlong(line, along) : null;
  const position = place ?? placeOf(history.value.present, id);
  spot.value = position && { position };
  const leaving = routes.find((each) => each.from === id) ?? routes.find((each) => each.to === id);
  if (route !== undefined) cursor.value = { route: id, at: along ?? (line?.horizontal ?? 0) / 2 };
  else if (leaving !== undefined) cursor.value = { route: leaving.id, at: endOf(leaving, id) };
}

/** How far from its start a line meets the point at one of its ends. */
function endOf({ id, from }: PlanRoute, point: PointId): Metres {
  return from === point ? 0 : (grounded.value?.ground.lines.get(id)?.horizontal ?? 0);
}

/** Turns to the details of the point or route that an id names; does nothing for an id of neither. */
export function showById(id: string): void {
  const { points, routes } = history.value.present;
  if (points.some((point) => point.id === id)) showDetails({ kind: 'point', id });
  else if (routes.some((route) => route.id === id)) showDetails({ kind: 'route', id, vertex: null });
}

/** Opens the form in which a thing of the list is entered, with what it is measured against filled in. */
export function enterMeasured(item: Pick<MeasureFirst, 'quantity' | 'about'>): void {
  const { points } = history.value.present;
  const isPoint = points.some(({ id }) => id === item.about);
  if (item.quantity === 'source-yield') {
    askedForm.value = { kind: 'bucket' };
    panel.value = 'inputs';
  } else if (item.quantity === 'pump-efficiency') {
    askedForm.value = { kind: 'run' };
    panel.value = 'inputs';
  } else {
    const from = measuredFrom(history.value.present, item);
    const isHeight = isPoint && (from !== null || item.quantity === 'ground');
    askedForm.value = isHeight ? { kind: 'height', point: item.about, from } : null;
    showById(item.about);
  }
}

/** The form is filled in, or was left. */
export function formDone(): void {
  askedForm.value = null;
}

/** Changes what the pump is known by; what was entered the other way is kept for when the choice is turned back. */
export function choosePump(
  kind: 'none' | 'sheet' | 'ram',
  first: { readonly sheet: PumpSheet; readonly ram: PhysicalRam },
): readonly Problem[] {
  const { pump } = history.value.present;
  const known = { ...otherPump.value, ...(pump !== null && { [pump.kind]: pump }) };
  otherPump.value = known;
  return edit((plan) => setPump(plan, kind === 'none' ? null : (known[kind] ?? first[kind])));
}
