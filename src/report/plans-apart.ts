import { distanceBetween } from '../geodesy/geodesic.ts';
import type { Plan, PlanPoint, PlanRoute, TroughPoint } from '../plan/plan.ts';
import type { UnitSystem } from '../units/kind.ts';
import { writeQuantity } from '../units/write-quantity.ts';
import { type ComparedRow, told } from './compared-row.ts';
import { pipeWords } from './pipe-words.ts';

/** Nearer than this two places are one: what is lost when a position is written down, m. */
const ONE_PLACE = 0.01;

/** Everything in which two plans differ as they were drawn and typed; nothing where they are alike. */
export function plansApart(one: Plan, other: Plan, units: UnitSystem): readonly ComparedRow[] {
  return [...pointRows(one, other, units), ...routeRows(one, other), ...inputRows(one, other, units)];
}

function pointRows(one: Plan, other: Plan, units: UnitSystem): ComparedRow[] {
  return paired(one.points, other.points).flatMap(([a, b]) => {
    if (a === undefined || b === undefined) return [onlyIn((a ?? b)?.name ?? '', a !== undefined)];
    const moved = distanceBetween(a.position, b.position);
    return [
      ...(moved < ONE_PLACE ? [] : [row(`${b.name}: place`, 'here', `moved ${writeQuantity(moved, 'length', units)}`)]),
      ...(a.name === b.name ? [] : [row('Name', a.name, b.name)]),
      ...heightRows(a, b, units),
      ...troughRows(a, b, units),
    ];
  });
}

const HEIGHTS: Readonly<Record<string, string>> = {
  waterLevel: 'water above the ground',
  inletHeight: 'inlet above the ground',
  outletHeight: 'outlet above the ground',
  topHeight: 'top above the ground',
  valveHeight: 'valve above the ground',
  wasteValveHeight: 'waste valve above the ground',
};

function heightRows(a: PlanPoint, b: PlanPoint, units: UnitSystem): ComparedRow[] {
  const [first, second] = [new Map<string, unknown>(Object.entries(a)), new Map<string, unknown>(Object.entries(b))];
  return Object.entries(HEIGHTS).flatMap(([key, words]) => {
    const [before, after] = [first.get(key), second.get(key)];
    if (typeof before !== 'number' || typeof after !== 'number' || before === after) return [];
    return [row(`${b.name}: ${words}`, writeQuantity(before, 'height', units), writeQuantity(after, 'height', units))];
  });
}

function troughRows(a: PlanPoint, b: PlanPoint, units: UnitSystem): ComparedRow[] {
  if (a.role !== 'trough' || b.role !== 'trough') return [];
  const share = ({ herdShare }: TroughPoint) =>
    herdShare === null ? 'equal' : writeQuantity(herdShare, 'share', units);
  const most = ({ valveFlow }: TroughPoint) =>
    valveFlow === null ? 'what the line brings' : writeQuantity(valveFlow, 'flow', units);
  return [
    ...(a.herdShare === b.herdShare ? [] : [row(`${b.name}: share of the herd`, share(a), share(b))]),
    ...(a.valveFlow === b.valveFlow ? [] : [row(`${b.name}: valve lets through`, most(a), most(b))]),
  ];
}

function routeRows(one: Plan, other: Plan): ComparedRow[] {
  return paired(one.routes, other.routes).flatMap(([a, b]) => {
    if (a === undefined || b === undefined) return [onlyIn((a ?? b)?.name ?? '', a !== undefined)];
    const [pipe, otherPipe] = [pipeWords(one, a.pipe), pipeWords(other, b.pipe)];
    return [
      ...(pipe === otherPipe ? [] : [row(`${b.name}: pipe`, pipe, otherPipe)]),
      ...(sameBends(a, b) ? [] : [row(`${b.name}: way`, bendWords(a), bendWords(b))]),
      ...(a.summits === b.summits ? [] : [row(`${b.name}: high points`, a.summits, b.summits)]),
    ];
  });
}

const bends = ({ vertices }: PlanRoute) => vertices.slice(1, -1);

function sameBends(a: PlanRoute, b: PlanRoute): boolean {
  const [first, second] = [bends(a), bends(b)];
  if (first.length !== second.length) return false;
  return first.every((place, at) => {
    const there = second[at];
    return there !== undefined && distanceBetween(place, there) < ONE_PLACE;
  });
}

function bendWords(route: PlanRoute): string {
  const count = bends(route).length;
  return `${count} ${count === 1 ? 'bend' : 'bends'}`;
}

function inputRows(one: Plan, other: Plan, units: UnitSystem): ComparedRow[] {
  const written = (plan: Plan): readonly (readonly [string, string])[] => [
    ['Water temperature', writeQuantity(plan.waterTemperature, 'temperature', units)],
    ['Share in a dry season', plan.dryShare === null ? 'not said' : writeQuantity(plan.dryShare, 'share', units)],
    ['Left in the stream', plan.leftInStream === null ? 'not said' : writeQuantity(plan.leftInStream, 'share', units)],
    ['Confidence asked for', writeQuantity(plan.confidence, 'share', units)],
    ['Pump', plan.pump === null ? 'none yet' : plan.pump.label],
  ];
  const [a, b] = [written(one), written(other)];
  const typed = a.flatMap(([about, words], at) => {
    const after = b[at]?.[1] ?? '';
    return words === after ? [] : [row(about, words, after)];
  });
  const lists = LISTS.flatMap(([about, of]) =>
    JSON.stringify(of(one)) === JSON.stringify(of(other)) ? [] : [row(about, 'as here', 'otherwise')],
  );
  return [...typed, ...lists];
}

/** Lists whose entries are looked up in the plan itself. */
const LISTS: readonly (readonly [string, (plan: Plan) => unknown])[] = [
  ['Readings of the source', (plan) => plan.yieldReadings],
  ['Herd', (plan) => plan.herd],
  ['Months of the year', (plan) => plan.year],
  ['Measurements', (plan) => plan.measurements],
  ['Figures of the pump', (plan) => ({ ...plan.pump, label: '' })],
];

/** Pairs by id: those of the first in order, then what only the second has. */
function paired<T extends { readonly id: string }>(
  one: readonly T[],
  other: readonly T[],
): readonly (readonly [T | undefined, T | undefined])[] {
  const known = new Set(one.map(({ id }) => id));
  return [
    ...one.map((each) => [each, other.find(({ id }) => id === each.id)] as const),
    ...other.filter(({ id }) => !known.has(id)).map((each) => [undefined, each] as const),
  ];
}

const onlyIn = (name: string, first: boolean) => row(name, first ? 'drawn' : null, first ? null : 'drawn');

function row(about: string, one: string | null, other: string | null): ComparedRow {
  return { about, one: told(one), other: told(other), difference: null, standing: 'other' };
}
