import {
  CAUSES,
  type CauseCode,
  causeOf,
  type FaultCode,
  PRIOR_ELSE,
  SIGN_BY_CHANCE,
  SIGN_UNKNOWN,
} from '../model/causes.ts';
import type { CauseDraws, Draws } from '../model/draws.ts';
import { CHANNELS, type Channel, MISREPORTED, type RamState, type Readings, stateOf } from '../model/readings.ts';
import { density, densityElse, type Measure, measureOf, predictedAt } from './density.ts';

/** Chances of the causes before anything is read, as weights; what is missing is the table's. */
export type Priors = Partial<Readonly<Record<CauseCode, number>>>;

export interface Asked {
  readonly record: Readings | null;
  readonly now: Readings;
  readonly priors?: Priors;
}

export interface Ranked {
  readonly code: CauseCode;
  readonly chance: number;
  /** How well the made-up rams under it fit, each against the others of its cause; null for something else. */
  readonly weights: Float64Array | null;
  readonly draws: CauseDraws | null;
  /** Mean likelihood of its made-up rams. */
  readonly likelihood: number;
}

/** Causes from the likeliest down, something else always among them. */
export function rank(draws: Draws, asked: Asked): Ranked[] {
  const measures = measuresOf(draws, asked);
  const state = stateOf(asked.now);
  const found = draws.causes.map((cause) => {
    const weights = new Float64Array(draws.count);
    const signs = signsOf(cause.code, asked.now);
    let sum = 0;
    for (let i = 0; i < draws.count; i += 1) {
      const likelihood = likelihoodOf(draws, cause, i, measures, asked.now, state);
      weights[i] = likelihood;
      sum += likelihood;
    }
    if (sum > 0) for (let i = 0; i < draws.count; i += 1) weights[i] = (weights[i] as number) / sum;
    const weight = priorOf(cause.code, asked.priors) * signs * (sum / draws.count);
    return {
      code: cause.code as CauseCode,
      weight,
      weights,
      draws: cause as CauseDraws | null,
      likelihood: sum / draws.count,
    };
  });
  const other = {
    code: 'something-else' as const,
    weight: priorOf('something-else', asked.priors) * elseLikelihood(draws, asked.now, measures, state),
    weights: null,
    draws: null,
    likelihood: 0,
  };
  const all = [...found, other];
  const total = all.reduce((sum, { weight }) => sum + weight, 0);
  return all
    .map(({ weight, ...rest }) => ({ ...rest, chance: total > 0 ? weight / total : 1 / all.length }))
    .sort((a, b) => b.chance - a.chance);
}

/** Channels that were read, ready to be compared. */
export function measuresOf(draws: Draws, { record, now }: Asked): readonly Measure[] {
  return CHANNELS.filter((channel) => counts(channel, now, draws)).map((channel) => measureOf(channel, draws, record));
}

/** What follows from two readings takes the place of one of them. */
function counts(channel: Channel, now: Readings, draws: Draws): boolean {
  if (now[channel] === null) return false;
  const friction = now.gaugeFriction !== null && (draws.well.gaugeFriction ?? 0) > 0;
  if (channel === 'gaugeRunning') return !friction;
  if (channel === 'gaugeFriction') return friction;
  return channel !== 'deliveryAtTank' || now.arrives === null;
}

function likelihoodOf(
  draws: Draws,
  cause: CauseDraws,
  row: number,
  measures: readonly Measure[],
  now: Readings,
  state: RamState | null,
): number {
  let likelihood = state === null ? 1 : stateChance(state, cause.states[row] as RamState);
  for (const measure of measures) {
    const reading = now[measure.channel] as number;
    likelihood *= density(measure, reading, predictedAt(measure, draws, cause.readings, row));
  }
  return likelihood;
}

export const stateChance = (said: RamState, is: RamState): number => (said === is ? 1 - MISREPORTED : MISREPORTED / 2);

/** How often something else leaves the ram running, or standing either way. */
const STATES_ELSE: Readonly<Record<RamState, number>> = { runs: 0.6, 'stopped-open': 0.2, 'stopped-shut': 0.2 };

function elseLikelihood(draws: Draws, now: Readings, measures: readonly Measure[], state: RamState | null): number {
  const signs = now.signs.reduce((product) => product * SIGN_UNKNOWN, 1);
  return measures.reduce(
    (product, measure) => product * densityElse(measure, now[measure.channel] as number, draws),
    signs * (state === null ? 1 : STATES_ELSE[state]),
  );
}

function signsOf(code: FaultCode, now: Readings): number {
  const { signs } = causeOf(code);
  return now.signs.reduce((product, sign) => product * (signs[sign] ?? SIGN_BY_CHANCE[sign]), 1);
}

export function priorOf(code: CauseCode, priors: Priors = {}): number {
  const own = priors[code];
  if (own !== undefined) return own;
  return CAUSES.find((cause) => cause.code === code)?.prior ?? PRIOR_ELSE;
}
