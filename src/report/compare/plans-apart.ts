import { distanceBetween } from '../../geodesy/geodesic.ts';
import { fittingRow } from '../../handbook/fitting-loss.ts';
import type { Plan, PlanPoint, PlanRoute, TroughPoint } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { pipeWords } from '../words/pipe-words.ts';
import { CHOICE_WORDS } from '../words/role-words.ts';
import { type ComparedRow, numberRow, wordsRow } from './compared-row.ts';
import { inputsApart } from './inputs-apart.ts';

/** Nearer than this two places are one: what is lost when a position is written down, m. */
const ONE_PLACE = 0.01;

/** Everything in which two plans differ as they were drawn and typed; nothing where they are alike. */
export function plansApart(one: Plan, other: Plan, units: UnitSystem): readonly ComparedRow[] {
  const rows = [...pointRows(one, other, units), ...routeRows(one, other, units), ...inputsApart(one, other, units)];
  return rows.filter(({ standing }) => standing !== 'same');
}

function pointRows(one: Plan, other: Plan, units: UnitSystem): ComparedRow[] {
  return paired(one.points, other.points).flatMap(([a, b]) => {
    if (a === undefined || b === undefined) return [onlyIn((a ?? b)?.name ?? '', a !== undefined)];
    const moved = distanceBetween(a.position, b.position);
    return [
      ...(moved < ONE_PLACE
        ? []
        : [wordsRow(`${b.name}: place`, ['as drawn', `moved ${writeQuantity(moved, 'length', units)}`])]),
      wordsRow('Name', [a.name, b.name]),
      wordsRow(`${b.name}: note`, [noteOf(a), noteOf(b)]),
      ...sizeRows(a, b, units),
      ...tankRows(a, b),
      ...troughRows(a, b, units),
    ];
  });
}

const noteOf = ({ note }: { readonly note: string }) => (note === '' ? null : note);

/** Sizes of points by the name that the plan gives them. */
const SIZES: Readonly<Record<string, { readonly words: string; readonly kind: QuantityKind }>> = {
  waterLevel: { words: 'water above the ground', kind: 'height' },
  storage: { words: 'water held above its outlet', kind: 'volume' },
  inletHeight: { words: 'inlet above the ground', kind: 'height' },
  outletHeight: { words: 'outlet above the ground', kind: 'height' },
  topHeight: { words: 'top above the ground', kind: 'height' },
  bore: { words: 'bore', kind: 'bore' },
  valveHeight: { words: 'valve above the ground', kind: 'height' },
  wasteValveHeight: { words: 'waste valve above the ground', kind: 'height' },
  volume: { words: 'volume', kind: 'volume' },
};

function sizeRows(a: PlanPoint, b: PlanPoint, units: UnitSystem): ComparedRow[] {
  const [first, second] = [a, b].map((point) => new Map<string, unknown>(Object.entries(point)));
  return Object.entries(SIZES).flatMap(([key, { words, kind }]) => {
    const [before, after] = [first?.get(key), second?.get(key)];
    if (typeof before !== 'number' || typeof after !== 'number') return [];
    return numberRow(`${b.name}: ${words}`, [before, after], kind, units);
  });
}

function tankRows(a: PlanPoint, b: PlanPoint): ComparedRow[] {
  if (a.role !== 'tank' || b.role !== 'tank') return [];
  return [wordsRow(`${b.name}: choice`, [CHOICE_WORDS[a.standing], CHOICE_WORDS[b.standing]])];
}

function troughRows(a: PlanPoint, b: PlanPoint, units: UnitSystem): ComparedRow[] {
  if (a.role !== 'trough' || b.role !== 'trough') return [];
  const share = ({ herdShare }: TroughPoint) =>
    herdShare === null ? 'equal' : writeQuantity(herdShare, 'share', units);
  const most = ({ valveFlow }: TroughPoint) =>
    valveFlow === null ? 'what the line brings' : writeQuantity(valveFlow, 'flow', units);
  return [
    wordsRow(`${b.name}: share of the herd`, [share(a), share(b)]),
    wordsRow(`${b.name}: valve lets through`, [most(a), most(b)]),
  ];
}

function routeRows(one: Plan, other: Plan, units: UnitSystem): ComparedRow[] {
  return paired(one.routes, other.routes).flatMap(([a, b]) => {
    if (a === undefined || b === undefined) return [onlyIn((a ?? b)?.name ?? '', a !== undefined)];
    return [
      wordsRow('Name', [a.name, b.name]),
      wordsRow(`${b.name}: ends`, [endsOf(one, a), endsOf(other, b)]),
      wordsRow(`${b.name}: pipe`, [pipeWords(one, a.pipe), pipeWords(other, b.pipe)]),
      ...bendRows(a, b, units),
      wordsRow(`${b.name}: fittings`, [fittingWords(a), fittingWords(b)]),
      wordsRow(`${b.name}: high points`, [a.summits, b.summits]),
      wordsRow(`${b.name}: note`, [noteOf(a), noteOf(b)]),
    ];
  });
}

const endsOf = (plan: Plan, { from, to }: PlanRoute) => `${nameOf(plan, from)} to ${nameOf(plan, to)}`;

const bends = ({ vertices }: PlanRoute) => vertices.slice(1, -1);

const countWords = (count: number, word: string) => `${count} ${word}${count === 1 ? '' : 's'}`;

/** Bends on the way; ends are those of the points and told of there. */
function bendRows(a: PlanRoute, b: PlanRoute, units: UnitSystem): ComparedRow[] {
  const [first, second] = [bends(a), bends(b)];
  const about = `${b.name}: way`;
  const [before, after] = [countWords(first.length, 'bend'), countWords(second.length, 'bend')];
  if (first.length !== second.length) return [wordsRow(about, [before, after])];
  const moved = first.map((place, at) => distanceBetween(place, second[at] ?? place));
  const most = Math.max(0, ...moved);
  if (most < ONE_PLACE) return [];
  return [wordsRow(about, [before, `${after}, moved up to ${writeQuantity(most, 'length', units)}`])];
}

function fittingWords({ fittings }: PlanRoute): string {
  const counted = fittings.filter(({ count }) => count > 0);
  if (counted.length === 0) return 'none counted';
  return counted.map(({ fitting, count }) => `${count} × ${fittingRow(fitting)?.label ?? fitting}`).join(', ');
}

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

const onlyIn = (name: string, first: boolean) => wordsRow(name, first ? ['drawn', null] : [null, 'drawn']);
