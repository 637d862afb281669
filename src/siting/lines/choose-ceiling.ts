import type { Metres } from '../../units/quantity.ts';
import type { LayingCost } from '../search/laying-cost.ts';
import type { RouteJob } from '../search/run-search.ts';
import { runSearch, type SearchGround } from '../search/run-search.ts';
import { shortestRule } from '../search/shortest-rule.ts';
import { costOfWorth, type LiftTerms, worthOfLift } from '../search/worth-of-lift.ts';

export interface CeilingTerms extends LayingCost, LiftTerms {
  /** The lowest governing level there can be: the outlet's. */
  readonly floor: Metres;
  /** Highest ground on the shortest way, above which no ceiling is worth a look. */
  readonly top: Metres;
}

/** Ceilings of the first look, from the floor to the top, and of the second, around the best of the first. */
const FIRST_LOOK = 16;
const SECOND_LOOK = 6;

/** A ceiling with the worth of the best line below it. */
interface Choice {
  readonly ceiling: Metres;
  readonly worth: number;
}

/** The ceiling below which the water comes cheapest; null when that is the top: no way round is worth it. */
export async function chooseCeiling(ground: SearchGround, terms: CeilingTerms, job: RouteJob): Promise<Metres | null> {
  const { floor, top } = terms;
  const step = (top - floor) / FIRST_LOOK;
  const topmost = await tryCeiling(ground, terms, { ceiling: top, worth: Number.POSITIVE_INFINITY }, job);
  let best: Choice = topmost ?? { ceiling: top, worth: Number.POSITIVE_INFINITY };
  for (let k = 0; k < FIRST_LOOK; k++) best = (await below(ground, terms, best, floor + k * step, job)) ?? best;
  const { ceiling } = best;
  for (let k = 1; k < SECOND_LOOK; k++) {
    const lower = ceiling - (k * step) / SECOND_LOOK;
    if (lower > floor) best = (await below(ground, terms, best, lower, job)) ?? best;
  }
  return best.ceiling < top ? best.ceiling : null;
}

const below = (ground: SearchGround, terms: CeilingTerms, best: Choice, ceiling: Metres, job: RouteJob) =>
  tryCeiling(ground, terms, { ceiling, worth: best.worth }, job);

/** The best line below a ceiling, if its water comes cheaper than a worth. */
async function tryCeiling(
  ground: SearchGround,
  terms: CeilingTerms,
  { ceiling, worth }: Choice,
  job: RouteJob,
): Promise<Choice | null> {
  const mostCost = Number.isFinite(worth) ? costOfWorth(terms, worth, ceiling) : Number.POSITIVE_INFINITY;
  if (mostCost <= 0) return null;
  const found = await runSearch(ground, shortestRule({ ...terms, ceiling, mostCost }), job);
  if (found.state !== 'found') return null;
  const cost = found.way.at(-1)?.carried.first ?? 0;
  return { ceiling, worth: worthOfLift(terms, cost, ceiling) };
}
