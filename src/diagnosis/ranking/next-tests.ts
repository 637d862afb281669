import type { CauseCode } from '../model/causes.ts';
import { COLUMNS, type Draws } from '../model/draws.ts';
import type { Channel, RamState, Readings } from '../model/readings.ts';
import { density, densityElse, type Measure, measureOf, predicted } from './density.ts';
import { middle } from './expected.ts';
import type { Ranked } from './ranking.ts';

export type TestCode =
  | 'count-beats'
  | 'bucket-waste'
  | 'bucket-at-pump'
  | 'bucket-at-tank'
  | 'gauge-running'
  | 'gauge-at-rest'
  | 'gauge-swing'
  | 'water-level'
  | 'tail-water'
  | 'trickle-at-rest'
  | 'drip-at-body'
  | 'bucket-pour'
  | 'drain-and-look'
  | 'flush-and-count'
  | 'watch-jitter'
  | 'throttle-and-try'
  | 'fill-and-hold';

/** Something to read or do at the ram. */
export interface Test {
  readonly code: TestCode;
  readonly channel: Channel;
  /** Minutes of work, the way to the place included. Common practice, no source. */
  readonly minutes: number;
  /** States in which it can be done. */
  readonly when: readonly RamState[];
}

const RUNS: readonly RamState[] = ['runs'];
const SHUT: readonly RamState[] = ['stopped-shut'];
const ANY: readonly RamState[] = ['runs', 'stopped-open', 'stopped-shut'];

export const TESTS: readonly Test[] = [
  { code: 'water-level', channel: 'level', minutes: 3, when: ANY },
  { code: 'tail-water', channel: 'tailWater', minutes: 3, when: ANY },
  { code: 'count-beats', channel: 'beatsPerMinute', minutes: 3, when: RUNS },
  { code: 'gauge-running', channel: 'gaugeRunning', minutes: 3, when: RUNS },
  { code: 'gauge-swing', channel: 'gaugeSwing', minutes: 3, when: RUNS },
  { code: 'gauge-at-rest', channel: 'gaugeRest', minutes: 4, when: ANY },
  { code: 'watch-jitter', channel: 'jitter', minutes: 4, when: RUNS },
  { code: 'bucket-waste', channel: 'waste', minutes: 6, when: RUNS },
  { code: 'bucket-at-pump', channel: 'deliveryAtPump', minutes: 8, when: RUNS },
  { code: 'bucket-at-tank', channel: 'deliveryAtTank', minutes: 10, when: RUNS },
  { code: 'bucket-pour', channel: 'pour', minutes: 4, when: ['stopped-open'] },
  { code: 'trickle-at-rest', channel: 'trickle', minutes: 4, when: ['runs', 'stopped-shut'] },
  { code: 'drip-at-body', channel: 'drip', minutes: 4, when: ['runs', 'stopped-shut'] },
  { code: 'throttle-and-try', channel: 'runsThrottled', minutes: 6, when: SHUT },
  { code: 'flush-and-count', channel: 'beatsAfterFlush', minutes: 6, when: RUNS },
  { code: 'drain-and-look', channel: 'backflow', minutes: 20, when: ANY },
  { code: 'fill-and-hold', channel: 'lineHolds', minutes: 30, when: ['stopped-shut', 'stopped-open'] },
];

export interface NextTest {
  readonly test: Test;
  /** Expected information about the cause. */
  readonly bits: number;
  /** What would be seen under each of the first causes; null where it would show nothing. */
  readonly shows: readonly { readonly code: CauseCode; readonly value: number | null }[];
}

/** Causes less likely than this do not count for the choice of a test. */
const LEAST_CHANCE = 0.01;
/** Made-up rams a cause that stand for all of it. */
const STAND_INS = 14;
/** Fewer where many causes are still open. */
const FEW_STAND_INS = 7;
const MANY_CAUSES = 8;
/** Causes for which it is said what a test would show. */
const SHOWN = 4;
/** A test that tells less is not worth naming. */
const LEAST_BITS = 0.06;
/** Places and weights of a normal distribution by three points (Gauss and Hermite). Handbooks of numerical methods. */
const POINTS = [
  { z: -Math.sqrt(3), weight: 1 / 6 },
  { z: 0, weight: 2 / 3 },
  { z: Math.sqrt(3), weight: 1 / 6 },
] as const;

interface Candidate {
  readonly code: CauseCode;
  readonly chance: number;
  /** Rows of the made-up rams that stand for it; null for something else. */
  readonly rows: readonly number[] | null;
  readonly cause: Ranked;
}

/** What to read or do next, best for its minutes first. */
export function nextTests(draws: Draws, ranked: readonly Ranked[], asked: NextAsked): readonly NextTest[] {
  const causes = candidatesOf(ranked);
  return TESTS.filter((test) => isOpen(test, asked))
    .map((test) => worth(draws, causes, test, measureOf(test.channel, draws, asked.record)))
    .filter(({ bits }) => bits >= LEAST_BITS)
    .sort((a, b) => b.bits / b.test.minutes - a.bits / a.test.minutes);
}

export interface NextAsked {
  readonly record: Readings | null;
  readonly now: Readings;
  readonly state: RamState | null;
}

function isOpen({ channel, when }: Test, { now, state }: NextAsked): boolean {
  if (now[channel] !== null) return false;
  return state === null || when.includes(state);
}

function candidatesOf(ranked: readonly Ranked[]): readonly Candidate[] {
  const there = ranked.filter(({ chance }) => chance >= LEAST_CHANCE);
  const total = there.reduce((sum, { chance }) => sum + chance, 0);
  return there.map((cause) => ({
    code: cause.code,
    chance: cause.chance / total,
    rows:
      cause.weights === null ? null : standIns(cause.weights, there.length > MANY_CAUSES ? FEW_STAND_INS : STAND_INS),
    cause,
  }));
}

/** Rows drawn evenly along the sum of the weights. */
function standIns(weights: Float64Array, count: number): readonly number[] {
  const rows: number[] = [];
  let sum = 0;
  for (let i = 0; i < weights.length; i += 1) {
    sum += weights[i] as number;
    while (rows.length < count && sum >= (rows.length + 0.5) / count) rows.push(i);
  }
  return rows;
}

interface Outlook {
  readonly code: CauseCode;
  readonly chance: number;
  /** What its stand-ins show; null for something else. */
  readonly shown: readonly number[] | null;
}

function worth(draws: Draws, causes: readonly Candidate[], test: Test, measure: Measure): NextTest {
  const outlooks = causes.map(({ code, chance, rows, cause }) => ({
    code,
    chance,
    shown: rows === null ? null : rows.map((row) => shownBy(draws, measure, cause, row)),
  }));
  const before = entropy(outlooks.map(({ chance }) => chance));
  let after = 0;
  let seen = 0;
  for (const outlook of outlooks) {
    for (const { value, weight } of outcomesOf(outlook, measure)) {
      const likely = outlooks.map((other) => other.chance * likelihood(draws, measure, other, value));
      const total = likely.reduce((sum, one) => sum + one, 0);
      if (!(total > 0)) continue;
      after += weight * entropy(likely.map((one) => one / total));
      seen += weight;
    }
  }
  const bits = seen > 0 ? Math.max(0, before - after / seen) : 0;
  const shows = outlooks.slice(0, SHOWN).map(({ code, shown }) => ({
    code,
    value: shown === null ? null : middle(shown.map((value) => [value, 1])),
  }));
  return { test, bits, shows };
}

function shownBy(draws: Draws, measure: Measure, { draws: made }: Ranked, row: number): number {
  const at = row * COLUMNS + measure.column;
  return predicted(measure, (made?.readings ?? draws.sound)[at] as number, draws.sound[at] as number);
}

function outcomesOf(
  outlook: Outlook,
  measure: Measure,
): readonly { readonly value: number; readonly weight: number }[] {
  const { shown, chance } = outlook;
  // Something else shows what it likes: where it is well, and widely off on both sides.
  if (shown === null) {
    if (measure.well === null) return [];
    const well = measure.well;
    return [-1, 0, 1].map((z) => ({ value: Math.max(0, moved(measure, well, z * ELSE_REACH)), weight: chance / 3 }));
  }
  return shown.flatMap((value) => {
    const each = chance / shown.length;
    if (Number.isNaN(value)) return [{ value, weight: each }];
    if (measure.doubt.scale === 'yes-no') {
      return [
        { value, weight: each * (1 - measure.deviation) },
        { value: 1 - value, weight: each * measure.deviation },
      ];
    }
    return POINTS.map(({ z, weight }) => ({
      value: moved(measure, value, z * measure.deviation),
      weight: each * weight,
    }));
  });
}

/** Reach of something else, in logarithms (or m). */
const ELSE_REACH = 0.7;

function moved(measure: Measure, value: number, by: number): number {
  if (measure.doubt.scale === 'logarithm') return Math.max(value, measure.floor) * Math.exp(by);
  return measure.doubt.scale === 'difference' ? value + by : Math.round(value);
}

/** A reading that could not be taken at all is as likely as there are stand-ins that show none. */
function likelihood(draws: Draws, measure: Measure, { shown }: Outlook, value: number): number {
  if (Number.isNaN(value)) {
    return shown === null ? 1 / 2 : (shown.filter((one) => Number.isNaN(one)).length + 1 / 2) / (shown.length + 1);
  }
  if (shown === null) return densityElse(measure, value, draws);
  return shown.reduce((sum, one) => sum + density(measure, value, one), 0) / shown.length;
}

function entropy(chances: readonly number[]): number {
  return chances.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
}
