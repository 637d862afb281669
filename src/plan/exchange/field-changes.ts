import type { Position } from '../../geodesy/position.ts';
import { type Edit, refused } from '../edits/edit.ts';
import { finishEdit } from '../edits/finish-edit.ts';
import { newFeatureId } from '../edits/new-id.ts';
import type {
  Measurement,
  Plan,
  PlanPoint,
  PlanRoute,
  PointId,
  RouteId,
  RunRecord,
  YieldReading,
} from '../model/plan.ts';

/** What a list of the plan holds that came or went by itself. */
interface Listed {
  readonly measurements: Measurement;
  readonly yieldReadings: YieldReading;
  readonly records: RunRecord;
}

/** Settings that come back as a whole; what a screen shows, and which files are open, stay at home. */
const SETTINGS = [
  'name',
  'waterTemperature',
  'pump',
  'dryShare',
  'dryShareDoubt',
  'leftInStream',
  'herd',
  'year',
  'materials',
  'confidence',
] as const satisfies readonly (keyof Plan)[];

export type SettingKey = (typeof SETTINGS)[number];

type What =
  | { readonly kind: 'point-added'; readonly point: PlanPoint }
  | { readonly kind: 'point-moved'; readonly point: PlanPoint; readonly from: Position }
  | { readonly kind: 'point-changed'; readonly point: PlanPoint }
  | { readonly kind: 'point-removed'; readonly point: PlanPoint }
  | { readonly kind: 'route-added'; readonly route: PlanRoute }
  | { readonly kind: 'route-redrawn'; readonly route: PlanRoute }
  | { readonly kind: 'route-changed'; readonly route: PlanRoute }
  | { readonly kind: 'route-removed'; readonly route: PlanRoute }
  | {
      [Key in keyof Listed]: {
        readonly kind: 'listed';
        readonly list: Key;
        readonly entry: Listed[Key];
        readonly gone: boolean;
      };
    }[keyof Listed]
  | { readonly kind: 'setting'; readonly setting: SettingKey };

/** One thing that is otherwise in the plan that came back, to be taken or left. */
export type FieldChange = What & {
  readonly key: string;
  /** Whether the same was changed at home, too, since the plan was taken along: taking it undoes that. */
  readonly clash: boolean;
};

/** A plan that came back, and how it was when it was taken along. */
export interface Returned {
  readonly asTaken: Plan;
  readonly plan: Plan;
}

/** What was changed out of doors and is not so at home yet, in the order in which it is taken. */
export function fieldChanges(home: Plan, { asTaken, plan }: Returned): readonly FieldChange[] {
  return [
    ...pointChanges(home, { asTaken, plan }),
    ...routeChanges(home, { asTaken, plan }),
    ...listChanges(home, { asTaken, plan }),
    ...SETTINGS.flatMap((setting) => settingChange(home, { asTaken, plan }, setting)),
  ];
}

function pointChanges(home: Plan, { asTaken, plan }: Returned): FieldChange[] {
  const changes: FieldChange[] = [];
  for (const point of plan.points) {
    const before = withId(asTaken.points, point.id);
    const here = withId(home.points, point.id);
    if (before === undefined) {
      if (!here || !same(here, point))
        changes.push({ kind: 'point-added', point, key: `point ${point.id}`, clash: false });
      continue;
    }
    // What was deleted at home stays so.
    if (here === undefined) continue;
    if (!same(before.position, point.position) && !same(here.position, point.position)) {
      const clash = !same(here.position, before.position);
      changes.push({ kind: 'point-moved', point, from: here.position, key: `place ${point.id}`, clash });
    }
    const [was, is, at] = [before, point, here].map(placeless);
    if (!same(was, is) && !same(at, is)) {
      changes.push({ kind: 'point-changed', point, key: `point ${point.id}`, clash: !same(at, was) });
    }
  }
  for (const before of asTaken.points) {
    const here = withId(home.points, before.id);
    if (withId(plan.points, before.id) || here === undefined) continue;
    changes.push({ kind: 'point-removed', point: here, key: `point ${before.id}`, clash: !same(here, before) });
  }
  return changes;
}

const placeless = ({ position: _, ...rest }: PlanPoint) => rest;

function routeChanges(home: Plan, { asTaken, plan }: Returned): FieldChange[] {
  const changes: FieldChange[] = [];
  for (const route of plan.routes) {
    const before = withId(asTaken.routes, route.id);
    const here = withId(home.routes, route.id);
    if (before === undefined) {
      if (!here || !same(here, route))
        changes.push({ kind: 'route-added', route, key: `line ${route.id}`, clash: false });
      continue;
    }
    if (here === undefined) continue;
    // The ends follow the points.
    const [was, is, at] = [before, route, here].map(({ vertices }) => vertices.slice(1, -1));
    if (!same(was, is) && !same(at, is)) {
      changes.push({ kind: 'route-redrawn', route, key: `course ${route.id}`, clash: !same(at, was) });
    }
    const [said, says, saysHere] = [described(asTaken, before), described(plan, route), described(home, here)];
    if (!same(said, says) && !same(saysHere, says)) {
      changes.push({ kind: 'route-changed', route, key: `line ${route.id}`, clash: !same(saysHere, said) });
    }
  }
  for (const before of asTaken.routes) {
    const here = withId(home.routes, before.id);
    if (withId(plan.routes, before.id) || here === undefined) continue;
    changes.push({ kind: 'route-removed', route: here, key: `line ${before.id}`, clash: !same(here, before) });
  }
  return changes;
}

/** A line without its course, with its pipe as it is rather than by its id. */
function described(plan: Plan, { vertices: _, pipe, ...rest }: PlanRoute) {
  const { id: __, ...laid } = withId(plan.pipes, pipe) ?? { id: pipe };
  return { ...rest, laid };
}

const LISTS = ['measurements', 'yieldReadings', 'records'] as const satisfies readonly (keyof Listed)[];

function listChanges(home: Plan, { asTaken, plan }: Returned): FieldChange[] {
  return LISTS.flatMap((list) => {
    const [was, is, here] = [asTaken, plan, home].map((each) => (each[list] ?? []) as readonly Listed[typeof list][]);
    const added = without(without(is ?? [], was ?? []), here ?? []);
    const gone = without(was ?? [], is ?? []).filter((entry) => (here ?? []).some((each) => same(each, entry)));
    const change = (entry: Listed[typeof list], isGone: boolean, k: number): FieldChange =>
      ({
        kind: 'listed',
        list,
        entry,
        gone: isGone,
        key: `${list} ${isGone ? 'less' : 'more'} ${k}`,
        clash: false,
      }) as FieldChange;
    return [...gone.map((entry, k) => change(entry, true, k)), ...added.map((entry, k) => change(entry, false, k))];
  });
}

/** A list without the entries of another, each taken off once. */
function without<T>(list: readonly T[], others: readonly T[]): T[] {
  const left = [...list];
  for (const other of others) {
    const at = left.findIndex((entry) => same(entry, other));
    if (at >= 0) left.splice(at, 1);
  }
  return left;
}

function settingChange(home: Plan, { asTaken, plan }: Returned, setting: SettingKey): FieldChange[] {
  const [was, is, here] = [asTaken[setting], plan[setting], home[setting]];
  if (same(was, is) || same(here, is)) return [];
  return [{ kind: 'setting', setting, key: `setting ${setting}`, clash: !same(here, was) }];
}

/** The plan at home with the changes that were chosen, as one step; nothing is taken where the whole would be no plan. */
export function takeChanges(home: Plan, back: Plan, chosen: readonly FieldChange[]): Edit {
  const ids = new Map<PointId, PointId>();
  let draft = home;
  for (const change of chosen) {
    const next = taken(draft, back, change, ids);
    if (next === null) {
      const name = 'route' in change ? change.route.name : '';
      return refused(
        'unknown-reference',
        `${name || 'a line'} without its two points`,
        'its points taken along with it',
      );
    }
    draft = next;
  }
  return finishEdit(home, withoutSpareRoutes(draft), { code: 'take-changes', name: '' });
}

function taken(draft: Plan, back: Plan, change: FieldChange, ids: Map<PointId, PointId>): Plan | null {
  switch (change.kind) {
    case 'point-added': {
      const id = hasId(draft, change.point.id) ? newFeatureId(draft, change.point.role) : change.point.id;
      ids.set(change.point.id, id);
      return { ...draft, points: [...draft.points, { ...change.point, id }] };
    }
    case 'point-moved':
      return moved(draft, change.point.id, change.point.position);
    case 'point-changed':
      return withPoint(draft, change.point.id, ({ position }) => ({ ...change.point, position }));
    case 'point-removed':
      return { ...draft, points: draft.points.filter(({ id }) => id !== change.point.id) };
    case 'route-added':
      return withNewRoute(draft, back, change.route, ids);
    case 'route-redrawn':
      return withRoute(draft, change.route.id, (route) => ({
        ...route,
        vertices: [...route.vertices.slice(0, 1), ...change.route.vertices.slice(1, -1), ...route.vertices.slice(-1)],
      }));
    case 'route-changed': {
      const laid = pipeOf(draft, back, change.route.pipe);
      const after = withRoute(draft, change.route.id, ({ vertices }) => ({
        ...change.route,
        vertices,
        pipe: laid.pipe,
      }));
      return { ...after, pipes: laid.pipes };
    }
    case 'route-removed':
      return { ...draft, routes: draft.routes.filter(({ id }) => id !== change.route.id) };
    case 'listed':
      return withEntryListed(draft, change, ids);
    case 'setting':
      return withSetting(draft, back, change.setting);
  }
}

function moved(draft: Plan, id: PointId, position: Position): Plan {
  const routes = draft.routes.map((route) => {
    if (route.from !== id && route.to !== id) return route;
    const vertices = [...route.vertices];
    if (route.from === id) vertices[0] = position;
    if (route.to === id) vertices[vertices.length - 1] = position;
    return { ...route, vertices };
  });
  return { ...withPoint(draft, id, (point) => ({ ...point, position })), routes };
}

function withNewRoute(draft: Plan, back: Plan, route: PlanRoute, ids: ReadonlyMap<PointId, PointId>): Plan | null {
  const start = withId(draft.points, ids.get(route.from) ?? route.from);
  const end = withId(draft.points, ids.get(route.to) ?? route.to);
  if (!start || !end) return null;
  const laid = pipeOf(draft, back, route.pipe);
  const id = hasId(draft, route.id) ? newFeatureId(draft, route.role) : route.id;
  const vertices = [start.position, ...route.vertices.slice(1, -1), end.position];
  const added: PlanRoute = { ...route, id, from: start.id, to: end.id, vertices, pipe: laid.pipe };
  return { ...draft, pipes: laid.pipes, routes: [...draft.routes, added] };
}

/** A pipe of the plan that came back among those at home: the one that is alike, else a new one. */
function pipeOf(draft: Plan, back: Plan, id: string): { readonly pipe: string; readonly pipes: Plan['pipes'] } {
  const wanted = withId(back.pipes, id);
  if (!wanted) return { pipe: id, pipes: draft.pipes };
  const alike = draft.pipes.find((pipe) => same({ ...pipe, id: '' }, { ...wanted, id: '' }));
  if (alike) return { pipe: alike.id, pipes: draft.pipes };
  let free = id;
  for (let n = 2; withId(draft.pipes, free); n += 1) free = `${id}-${n}`;
  return { pipe: free, pipes: [...draft.pipes, { ...wanted, id: free }] };
}

function withEntryListed(
  draft: Plan,
  change: Extract<FieldChange, { kind: 'listed' }>,
  ids: ReadonlyMap<PointId, PointId>,
): Plan {
  const list: readonly unknown[] = draft[change.list] ?? [];
  const entry = change.list === 'measurements' ? renamed(change.entry, ids) : change.entry;
  const next = change.gone ? without(list, [entry]) : [...list, entry];
  return { ...draft, [change.list]: next };
}

function renamed(taken: Measurement, ids: ReadonlyMap<PointId, PointId>): Measurement {
  const to = (id: PointId): PointId => ids.get(id) ?? id;
  return taken.kind === 'height'
    ? { ...taken, point: to(taken.point) }
    : { ...taken, from: to(taken.from), to: to(taken.to) };
}

function withSetting(draft: Plan, back: Plan, setting: SettingKey): Plan {
  const { [setting]: _, ...rest } = draft;
  return (back[setting] === undefined ? rest : { ...rest, [setting]: back[setting] }) as Plan;
}

/** Lines and levels go with the points they are about. */
function withoutSpareRoutes(draft: Plan): Plan {
  const here = new Set(draft.points.map(({ id }) => id));
  const keep = <T>(list: readonly T[], of: (entry: T) => readonly PointId[]): readonly T[] => {
    const kept = list.filter((entry) => of(entry).every((id) => here.has(id)));
    return kept.length === list.length ? list : kept;
  };
  return {
    ...draft,
    routes: keep(draft.routes, ({ from, to }) => [from, to]),
    measurements: keep(draft.measurements, (taken) =>
      taken.kind === 'height' ? [taken.point] : [taken.from, taken.to],
    ),
  };
}

function withPoint(draft: Plan, id: PointId, change: (point: PlanPoint) => PlanPoint): Plan {
  return { ...draft, points: draft.points.map((point) => (point.id === id ? change(point) : point)) };
}

function withRoute(draft: Plan, id: RouteId, change: (route: PlanRoute) => PlanRoute): Plan {
  return { ...draft, routes: draft.routes.map((route) => (route.id === id ? change(route) : route)) };
}

const withId = <T extends { readonly id: string }>(list: readonly T[], id: string): T | undefined =>
  list.find((each) => each.id === id);

const hasId = (plan: Plan, id: string): boolean =>
  [...plan.points, ...plan.routes, ...plan.areas].some((each) => each.id === id);

/** Whether two parts of plans say the same, whatever the order of their keys. */
function same(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  const [mine, theirs] = [Object.keys(one), Object.keys(other)];
  return mine.length === theirs.length && mine.every((key) => same(Reflect.get(one, key), Reflect.get(other, key)));
}
