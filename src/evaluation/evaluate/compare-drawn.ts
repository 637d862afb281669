import type { Measurement, Plan } from '../../plan/model/plan.ts';

import { counted } from '../site/height-net.ts';
import { siteOf } from '../site/site.ts';
import { type PairedOutput, pairedDifferences } from '../spread/paired-draws.ts';
import type { DrawOrder } from '../spread/samples.ts';
import { solve } from '../spread/solve.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { DAY, type Estimate } from '../statistics/estimate.ts';
import type { Ground } from './evaluate.ts';

/** A plan and the ground under it. */
export interface GroundedSide {
  readonly plan: Plan;
  readonly ground: Ground;
}

/** What the second of two plans has more, by output; a tank's or trough's by its id and output. */
export type Differences = ReadonlyMap<string, Estimate>;

/** The same of the first against the second. */
export const turned = (differences: Differences): Differences =>
  new Map([...differences].map(([key, { low, likely, high }]) => [key, { low: -high, likely: -likely, high: -low }]));

/** Draws that tell a difference: its own spread is small, so that fewer do than for an answer. */
export const DIFFERENCE_DRAWS = { count: 2048, seed: 1 } as const satisfies DrawOrder;

/**
 * What two plans on one ground differ by, draw by draw; null where they have nothing in common to be drawn once: a system that
 * cannot be solved, another class of heights, or other readings of the ground.
 */
export function* differencesInDraws(
  one: GroundedSide,
  other: GroundedSide,
  order: DrawOrder,
): Generator<number, Differences | null> {
  if (!sameReadings(one.plan, other.plan) || !same(one.ground.accuracy, other.ground.accuracy)) return null;
  const [first, second] = [one, other].map(({ plan, ground }) => solve(siteOf(plan, ground), ground.accuracy));
  if (!first || !second) return null;
  const covariance = first.site.heights.covariance([...first.model.nodes, ...second.model.nodes]);
  const sameSource = same(one.plan.yieldReadings, other.plan.yieldReadings);
  const samePump = same(one.plan.pump, other.plan.pump);
  const pair = { one: first, other: second, covariance, sameSource, samePump };
  const found = yield* pairedDifferences(pair, outputsOf(first, second), order);
  return new Map([...found].map(([key, estimate]) => [key, key.endsWith(' arrives') ? aDay(estimate) : estimate]));
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const aDay = ({ low, likely, high }: Estimate): Estimate => ({
  low: low * DAY,
  likely: likely * DAY,
  high: high * DAY,
});

/** Whether both plans weigh the same readings of points that stand where they stood. */
function sameReadings(one: Plan, other: Plan): boolean {
  const taken = one.measurements.filter(counted);
  if (!same(taken, other.measurements.filter(counted))) return false;
  const place = ({ points }: Plan, id: string) => points.find((point) => point.id === id)?.position;
  return taken.flatMap(pointsOf).every((id) => same(place(one, id), place(other, id)));
}

const pointsOf = (taken: Measurement): readonly string[] =>
  taken.kind === 'height' ? [taken.point] : [taken.from, taken.to];

const SHARED = ['fall', 'fall-at-rest', 'drive-flow', 'supply-limit', 'over-inlet'] as const;
const TANK = ['lift', 'governing-lift', 'lift-over-fall', 'arrives'] as const;
const TROUGH = ['feed-flow', 'feed-still-head'] as const;

/** Outputs that both systems have: of the system, of each tank and of each gravity line. */
function outputsOf(one: SolvedSystem, other: SolvedSystem): PairedOutput[] {
  const shared = SHARED.map((name) => ({ key: name, one: one.layout.shared(name), other: other.layout.shared(name) }));
  const tanks = inBoth(one.model.destinations, other.model.destinations).flatMap(([id, i, j]) =>
    TANK.map((name) => ({
      key: `${id} ${name}`,
      one: one.layout.destination(i, name),
      other: other.layout.destination(j, name),
    })),
  );
  const troughs = inBoth(one.model.feeds, other.model.feeds).flatMap(([id, i, j]) =>
    TROUGH.map((name) => ({ key: `${id} ${name}`, one: one.layout.feed(i, name), other: other.layout.feed(j, name) })),
  );
  return [...shared, ...tanks, ...troughs];
}

/** Ids that are in both, with their places in each. */
function inBoth(
  one: readonly { readonly id: string }[],
  other: readonly { readonly id: string }[],
): readonly (readonly [string, number, number])[] {
  return one.flatMap(({ id }, i) => {
    const j = other.findIndex((each) => each.id === id);
    return j < 0 ? [] : [[id, i, j] as const];
  });
}
