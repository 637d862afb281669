import { offsetBetween } from '../../geodesy/geodesic.ts';
import { fittingRow } from '../../handbook/fitting-loss.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';
import type { Plan, PlanRoute, PointId, Price, RouteId } from '../../plan/model/plan.ts';
import type { Degrees, Metres } from '../../units/quantity.ts';
import type { Evaluation, LineResult } from '../result/evaluation.ts';

/** Below this a rigid pipe is sprung into the trench; a coiled one bends by itself up to the second figure. Common practice, no source. */
const SPRUNG: Degrees = 15;
const COILED: Degrees = 60;
/** From here on a right-angled elbow is nearer than one of 45°. */
const RIGHT_ANGLED: Degrees = 67.5;

/** Change of direction at each corner of a drawn route, 0 to 180°. */
export function cornersOf(route: PlanRoute): readonly Degrees[] {
  const steps = route.vertices.slice(1).flatMap((to, i) => {
    const from = route.vertices[i];
    return from ? [offsetBetween(from, to)] : [];
  });
  return steps.slice(1).map((next, i) => {
    const last = steps[i] ?? next;
    const turn = Math.atan2(
      last.east * next.north - last.north * next.east,
      last.east * next.east + last.north * next.north,
    );
    return Math.abs((turn * 180) / Math.PI);
  });
}

/** Elbows that a route's corners ask for, by the handbook's names. */
export function bendsOf(
  route: PlanRoute,
  pipe: 'rigid' | 'coiled',
): readonly { readonly item: string; readonly count: number }[] {
  const least = pipe === 'coiled' ? COILED : SPRUNG;
  const corners = cornersOf(route).filter((c) => c >= least);
  const right = corners.filter((c) => c >= RIGHT_ANGLED).length;
  return [
    { item: 'elbow-45', count: corners.length - right },
    { item: 'elbow-90-medium', count: right },
  ];
}

/** Pipe of one kind: what lies in the ground and what has to be bought. */
export interface PipeNeed {
  /** Pipe row, or the label of a pipe of the user's own. */
  readonly item: string;
  readonly label: string;
  /** Length along the ground. */
  readonly length: Metres;
  /** With the allowance for waste and fit. */
  readonly toBuy: Metres;
  /** Whole coils or sticks; null when it is cut to length. */
  readonly packs: number | null;
  readonly pack: Metres | null;
  readonly cost: number | null;
  readonly routes: readonly RouteId[];
  /** Whether a stretch has no heights: its length is then as if level. */
  readonly partly: boolean;
}

export interface TrenchNeed extends PipeNeed {
  /** Null for a shallow one. */
  readonly depth: Metres | null;
}

/** Pieces of one kind. */
export interface PieceNeed {
  readonly item: string;
  readonly label: string;
  readonly count: number;
  readonly cost: number | null;
  /** Points and routes that they are for. */
  readonly routes: readonly (RouteId | PointId)[];
}

export interface MaterialNeeds {
  readonly pipes: readonly PipeNeed[];
  /** Trench to be dug, by its depth, as pipe is told: one where several pipes lie side by side, nothing added for waste. */
  readonly trenches: readonly TrenchNeed[];
  readonly pieces: readonly PieceNeed[];
  /** Sum of what has a price; null when nothing has. */
  readonly total: number | null;
  /** Items without a price. */
  readonly unpriced: readonly string[];
}

/** Lines that would be built: those of the kept tanks, or of every candidate while none is kept. Set-aside tanks are left out. */
export function routesToBuild(plan: Plan): readonly PlanRoute[] {
  const tanks = plan.points.filter((p) => p.role === 'tank');
  const kept = tanks.filter((t) => t.standing === 'kept');
  const wanted = kept.length > 0 ? kept : tanks.filter((t) => t.standing === 'candidate');
  const left = new Set(tanks.filter((t) => !wanted.includes(t)).map((t) => t.id));
  return plan.routes.filter((r) => !left.has(r.to) && !left.has(r.from));
}

/** What has to be bought or dug for a plan: pipe along the ground, trench, and pieces counted from its points and routes. */
export function materialNeeds(plan: Plan, evaluation: Evaluation): MaterialNeeds {
  const lines = new Map(evaluation.lines.map((l) => [l.id, l]));
  const built = routesToBuild(plan).flatMap((route) => {
    const line = lines.get(route.id);
    return line ? [{ route, line, times: timesLaid(plan, route) }] : [];
  });
  const pipes = pipeNeeds(plan, built);
  const trenches = trenchNeeds(plan, built);
  const pieces = pieceNeeds(plan, built);
  const all = [...pipes, ...trenches, ...pieces];
  const priced = all.flatMap((n) => n.cost ?? []);
  return {
    pipes,
    trenches,
    pieces,
    total: priced.length > 0 ? priced.reduce((s, c) => s + c, 0) : null,
    unpriced: all.filter((n) => n.cost === null).map((n) => n.label),
  };
}

interface Built {
  readonly route: PlanRoute;
  readonly line: LineResult;
  /** How many of it are laid side by side. */
  readonly times: number;
}

/** How many times a route is laid: a drive pipe for each pump, everything else once. */
export function timesLaid({ pump }: Plan, { role }: PlanRoute): number {
  return role === 'drive' ? (pump?.count ?? 1) : 1;
}

const priceOf = (plan: Plan, item: string): Price | null => plan.materials.prices.find((p) => p.item === item) ?? null;

function pipeNeeds(plan: Plan, built: readonly Built[]): PipeNeed[] {
  const items = grouped(built, ({ route }) => pipeItem(plan, route).item);
  return [...items.values()].map((lines) => pipeNeed(plan, lines));
}

function pipeItem(plan: Plan, route: PlanRoute): { item: string; label: string } {
  const pipe = plan.pipes.find((p) => p.id === route.pipe);
  if (pipe === undefined) throw new Error(`found route ${route.id} without its pipe, expected ${route.pipe}`);
  if (pipe.kind === 'own') return { item: pipe.label, label: pipe.label };
  return { item: pipe.row, label: pipeRow(pipe.row)?.label ?? pipe.row };
}

function pipeNeed(plan: Plan, lines: readonly Built[]): PipeNeed {
  const [first] = lines;
  if (first === undefined) throw new Error('pipe of no line: found none, expected one or more');
  const { item, label } = pipeItem(plan, first.route);
  const length = lines.reduce((sum, { line, times }) => sum + times * line.slope, 0);
  const laid = lines.reduce((sum, { times }) => sum + times, 0);
  const toBuy = length * (1 + plan.materials.allowance);
  const price = priceOf(plan, item);
  const pack = price?.pack ?? null;
  const packs = pack === null ? null : Math.ceil(toBuy / pack);
  const cost =
    price && price.price * (price.unit === 'piece' ? (packs ?? laid) : packs === null ? toBuy : packs * (pack ?? 0));
  return {
    item,
    label,
    length,
    toBuy,
    packs,
    pack,
    cost,
    routes: lines.map(({ route }) => route.id),
    partly: lines.some(({ line }) => line.void > 0),
  };
}

/** Trench of every depth that is dug; a drive pipe lies on the ground, anchored (common practice, no source). */
function trenchNeeds(plan: Plan, built: readonly Built[]): TrenchNeed[] {
  const dug = built.filter(({ route }) => route.role !== 'drive');
  return [...grouped(dug, ({ route }) => route.trenchDepth ?? SHALLOW)].map(([depth, lines]) => {
    const item = depth === SHALLOW ? 'trench' : `trench-${Math.round(depth * 100)}-cm`;
    const length = lines.reduce((sum, { line }) => sum + line.slope, 0);
    const price = priceOf(plan, item);
    return {
      item,
      label: depth === SHALLOW ? 'trench, shallow' : 'trench, dug deeper',
      depth: depth === SHALLOW ? null : depth,
      length,
      toBuy: length,
      packs: null,
      pack: null,
      cost: price && price.price * length,
      routes: lines.map(({ route }) => route.id),
      partly: lines.some(({ line }) => line.void > 0),
    };
  });
}

/** Stands for the depth of a trench that no depth is said of. */
const SHALLOW = -1;

/** Pieces that no row of the handbook names. */
const OWN_PIECES: Readonly<Record<string, string>> = {
  pump: 'ram pump',
  standpipe: 'standpipe',
  tank: 'tank',
  trough: 'trough',
  vent: 'vent at a high point',
  drain: 'drain at a low point',
  'pump-valve': 'stop valve at the pump',
  union: 'union at the pump',
  'stop-valve': 'stop valve at the outlet of a tank or spring',
  'float-valve': 'float valve of a trough',
};

interface Piece {
  readonly item: string;
  readonly count: number;
}

/** Pieces of one route: bends from its corners, vents and drains from its ground, valves and unions from its ends, and what was entered. */
function piecesOf({ route, line, times }: Built, plan: Plan): readonly Piece[] {
  const turns = (kind: 'summit' | 'sag') => line.turnings.filter((t) => t.kind === kind).length;
  const gravity = route.role === 'gravity' ? 1 : 0;
  const vents = route.role === 'drive' ? 0 : turns('summit');
  const each = [
    ...bendsOf(route, materialOf(plan, route)),
    { item: 'vent', count: vents },
    { item: 'drain', count: route.role === 'drive' ? 0 : turns('sag') },
    { item: 'stop-valve', count: gravity },
    { item: 'float-valve', count: gravity },
    ...route.fittings.filter(isBought).map((f) => ({ item: f.fitting, count: f.count })),
  ].map(({ item, count }) => ({ item, count: times * count }));
  return [...each, ...atPump(route, plan)].filter(({ count }) => count > 0);
}

/** The end of a pipe loses head without being a piece. */
const isBought = ({ fitting }: PlanRoute['fittings'][number]): boolean => !/^(entrance-|exit$)/.test(fitting);

/**
 * Each pump can be shut off and taken out on either side: a stop valve and a union on its drive pipe and on its delivery.
 * Common practice, no source. A valve that was entered among the fittings of the line is not counted twice.
 */
function atPump(route: PlanRoute, { pump, points }: Plan): readonly Piece[] {
  const end = route.role === 'drive' ? route.to : route.role === 'delivery' ? route.from : null;
  if (!points.some(({ id, role }) => id === end && role === 'pump')) return [];
  const count = pump?.count ?? 1;
  const entered = route.fittings.some(({ fitting }) => STOP_VALVES.has(fitting));
  return [
    { item: 'pump-valve', count: entered ? 0 : count },
    { item: 'union', count },
  ];
}

const STOP_VALVES: ReadonlySet<string> = new Set(['valve-gate', 'valve-gate-threaded', 'valve-ball', 'valve-globe']);

/** Pump, standpipe, tanks and troughs at the ends of what is built. */
function piecesAtPoints(plan: Plan, built: readonly Built[]): (Piece & { readonly at: PointId })[] {
  const ends = new Set(built.flatMap(({ route }) => [route.from, route.to]));
  return plan.points.flatMap(({ id, role }) => {
    if (role === 'source' || !ends.has(id)) return [];
    return [{ item: role, count: role === 'pump' ? (plan.pump?.count ?? 1) : 1, at: id }];
  });
}

function materialOf(plan: Plan, route: PlanRoute): 'rigid' | 'coiled' {
  const pipe = plan.pipes.find((p) => p.id === route.pipe);
  const material = pipe?.kind === 'row' ? pipeRow(pipe.row)?.material : pipe?.material;
  return material === 'pe' ? 'coiled' : 'rigid';
}

function pieceNeeds(plan: Plan, built: readonly Built[]): PieceNeed[] {
  const onLines = built.flatMap((b) => piecesOf(b, plan).map((p) => ({ ...p, at: b.route.id })));
  // Several delivery lines leave a pump by one valve and one union.
  const once = onLines.filter(
    ({ item, at }, index) =>
      !(item === 'pump-valve' || item === 'union') ||
      index === onLines.findIndex((other) => other.item === item && roleOf(plan, other.at) === roleOf(plan, at)),
  );
  const each = [...piecesAtPoints(plan, built), ...once];
  return [...grouped(each, (p) => p.item)].map(([item, pieces]) => {
    const count = pieces.reduce((sum, p) => sum + p.count, 0);
    const price = priceOf(plan, item);
    return {
      item,
      label: fittingRow(item)?.label ?? OWN_PIECES[item] ?? item,
      count,
      cost: price && price.price * count,
      routes: [...new Set(pieces.map((p) => p.at))],
    };
  });
}

const roleOf = (plan: Plan, id: RouteId) => plan.routes.find((route) => route.id === id)?.role;

/** A list in groups by a key, in the order in which the keys first come. */
function grouped<Item, Key>(items: readonly Item[], keyOf: (item: Item) => Key): ReadonlyMap<Key, readonly Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}
