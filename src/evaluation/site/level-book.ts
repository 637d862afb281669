import type { Measurement, Plan, PointId } from '../../plan/model/plan.ts';
import type { GroundPoint, HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Outcome } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { Z975 } from '../statistics/normal.ts';
import { pointHeights } from './heights.ts';

/**
 * Where the staff stood: a point of the plan, or a turning point (null). `fore` was read looking on to it before the level was
 * moved, `back` looking back at it afterwards, both m up the staff; the first stand has no `fore`, the last no `back`.
 */
export interface StaffStand {
  readonly at: PointId | null;
  readonly fore: Metres | null;
  readonly back: Metres | null;
}

/** A stretch of a book from one point of the plan to the next. */
export interface LevelLeg {
  readonly from: PointId;
  readonly to: PointId;
  readonly rise: Metres;
  /** Stands of the level on the way. */
  readonly setups: number;
  /** ± of the rise, 95 %. */
  readonly plusMinus: Metres;
}

/** A level book worked out. */
export interface ReducedBook {
  readonly legs: readonly LevelLeg[];
  readonly backs: Metres;
  readonly fores: Metres;
  readonly setups: number;
  /** What is left where the book ends at a point that it came through before; null where it does not close. */
  readonly closing: Closing | null;
}

export interface Closing {
  readonly error: Metres;
  readonly setups: number;
  /** What careful readings leave over so many stands 95 times of a hundred, m. */
  readonly allowed: Metres;
  /** Whether the error is no more than that. */
  readonly holds: boolean;
}

/**
 * Standard deviation of one reading with a builder's level and a staff in centimetres over 30 m or less, and of one with a clear
 * hose. Common practice, no source.
 */
export const READING_DEVIATION: Readonly<Record<'level' | 'hose', Metres>> = { level: 0.002, hose: 0.004 };

/**
 * Works a level book out: rise over one stand of the level = back − fore; over several their sum.
 *
 * s = √2 · s_reading over one stand, √n of that over n; where the book closes with an error e over n stands, s is |e| / √n at
 * least. Source: closed form (errors of independent readings); the layout of the book: B. C. Punmia,
 * Surveying, volume 1, chapter 9.
 */
export function reduceBook(stands: readonly StaffStand[], reading: Metres): Outcome<ReducedBook> {
  const wrong = wrongStand(stands);
  if (wrong !== null) return { ok: false, problems: [{ code: 'level-book', path: '', ...wrong }] };
  const rises = stands.slice(1).map(({ fore }, k) => (stands[k]?.back ?? 0) - (fore ?? 0));
  const closing = closingOf(stands, rises, reading);
  const perSetup = Math.max(
    Math.SQRT2 * reading,
    closing === null ? 0 : Math.abs(closing.error) / Math.sqrt(closing.setups),
  );
  const legs: LevelLeg[] = [];
  let last = 0;
  for (const [k, { at }] of stands.entries()) {
    const from = stands[last]?.at ?? null;
    if (k === 0 || at === null || from === null) continue;
    const setups = k - last;
    const rise = rises.slice(last, k).reduce((sum, each) => sum + each, 0);
    if (at !== from) legs.push({ from, to: at, rise, setups, plusMinus: Z975 * perSetup * Math.sqrt(setups) });
    last = k;
  }
  const sum = (of: 'fore' | 'back') => stands.reduce((total, stand) => total + (stand[of] ?? 0), 0);
  return { ok: true, value: { legs, backs: sum('back'), fores: sum('fore'), setups: rises.length, closing } };
}

function wrongStand(stands: readonly StaffStand[]): { found: string; expected: string } | null {
  if (stands.length < 2) return { found: `${stands.length} places of the staff`, expected: 'two or more' };
  if (stands[0]?.at === null) return { found: 'a turning point as the first place', expected: 'a point of the plan' };
  if (stands.at(-1)?.at === null)
    return { found: 'a turning point as the last place', expected: 'a point of the plan' };
  for (const [k, { fore, back }] of stands.entries()) {
    const place = `place ${k + 1}`;
    if (k > 0 && fore === null) return { found: `${place} without a fore reading`, expected: 'one' };
    if (k < stands.length - 1 && back === null) return { found: `${place} without a back reading`, expected: 'one' };
  }
  return null;
}

/** From the last place back to the first time that the staff stood there. */
function closingOf(stands: readonly StaffStand[], rises: readonly Metres[], reading: Metres): Closing | null {
  const end = stands.length - 1;
  const start = stands.findIndex(({ at }) => at !== null && at === stands[end]?.at);
  if (start < 0 || start === end) return null;
  const error = rises.slice(start, end).reduce((sum, rise) => sum + rise, 0);
  const setups = end - start;
  const allowed = Z975 * Math.SQRT2 * reading * Math.sqrt(setups);
  return { error, setups, allowed, holds: Math.abs(error) <= allowed };
}

/** The legs of a book as levels of a plan. */
export function levelsOf({ legs }: ReducedBook): readonly Measurement[] {
  const toMillimetre = (value: Metres) => Math.round(value * 1000) / 1000;
  return legs.map(({ from, to, rise, plusMinus }) => ({
    kind: 'difference',
    from,
    to,
    rise: toMillimetre(rise),
    plusMinus: Math.max(0.001, toMillimetre(plusMinus)),
  }));
}

/** Ground of a point as it is known: likely height and ±, 95 %. */
export interface KnownHeight {
  readonly ground: Metres;
  readonly plusMinus: Metres;
}

/** What is known of the ground of points by the elevation model and every level of a plan, by least squares with the model's doubt as prior. */
export function knownHeights(
  plan: Plan,
  ids: readonly PointId[],
  { points, accuracy }: { readonly points: ReadonlyMap<PointId, GroundPoint>; readonly accuracy: HeightAccuracy },
): ReadonlyMap<PointId, KnownHeight> {
  const heights = pointHeights(plan, points, accuracy);
  return new Map(
    ids.flatMap((id) => {
      const node = heights.node(id);
      if (node === null) return [];
      const variance = valueAt(heights.covariance([node]), 0);
      return [[id, { ground: node.ground, plusMinus: Z975 * Math.sqrt(Math.max(0, variance)) }] as const];
    }),
  );
}
