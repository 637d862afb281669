import { calibratedField } from './model/calibrated.ts';
import type { CauseCode } from './model/causes.ts';
import { type Draws, makeDraws } from './model/draws.ts';
import type { FieldRam } from './model/field-ram.ts';
import { type RamState, type Readings, stateOf, withDerived } from './model/readings.ts';
import { apart } from './ranking/density.ts';
import { type Expected, expectedUnder, severityUnder } from './ranking/expected.ts';
import { type NextTest, nextTests } from './ranking/next-tests.ts';
import { bestPair, singleLikelihood } from './ranking/pairs.ts';
import { priorsOfWell } from './ranking/priors-of-plan.ts';
import { type Asked, measuresOf, type Ranked, rank } from './ranking/ranking.ts';
import { efficiencyOf, type RemedyFacts, remedyOf } from './ranking/remedy.ts';

/** What is likely wrong with a ram, from the likeliest cause down, and what to read or do next. */
export interface Diagnosis {
  readonly state: RamState | null;
  readonly causes: readonly DiagnosedCause[];
  readonly next: readonly NextTest[];
  readonly notes: readonly Note[];
}

export interface DiagnosedCause {
  readonly code: CauseCode;
  readonly chance: number;
  /** What it would do to the readings here; null for something else. */
  readonly expected: Expected | null;
  readonly remedy: RemedyFacts;
}

/** What must be said beside the list. */
export type Note =
  /** Nothing was read yet. */
  | { readonly code: 'nothing-read' }
  /** These two explain what was read about as well; `by` tells them apart, null where no test here does. */
  | {
      readonly code: 'cannot-tell-apart';
      readonly causes: readonly [CauseCode, CauseCode];
      readonly by: NextTest | null;
    }
  | { readonly code: 'none-fits' }
  | { readonly code: 'more-than-one'; readonly causes: readonly [CauseCode, CauseCode] }
  /** It makes better use of its water than when it was well. */
  | { readonly code: 'no-fault-if-source-is-short'; readonly now: number; readonly well: number }
  | { readonly code: 'no-record' };

/** Draws for a ram, fitted to its record where there is one; they serve every later reading. */
export function drawsFor(field: FieldRam, record: Readings | null): Draws {
  return makeDraws(calibratedField(field, record));
}

/** From field readings back to a cause. */
export function diagnose(draws: Draws, given: Asked): Diagnosis {
  const asked = {
    ...given,
    record: given.record === null ? null : withDerived(given.record),
    now: withDerived(given.now),
    priors: { ...priorsOfWell(draws.well.state), ...given.priors },
  };
  const ranked = rank(draws, asked);
  const state = stateOf(asked.now);
  const next = nextTests(draws, ranked, { record: asked.record, now: asked.now, state });
  const sound = ranked.find(({ code }) => code === 'healthy');
  const well = sound === undefined ? null : expectedUnder(draws, { ...sound, weights: evenly(draws) }, asked.record);
  if (well === null) throw new RangeError('found no sound ram among the draws, expected one');
  const causes = ranked.map((cause) => {
    const expected = expectedUnder(draws, cause, asked.record);
    const { code, chance } = cause;
    const remedy = remedyOf(draws.field, { code, severity: severityUnder(cause), expected, well });
    return { code, chance, expected, remedy };
  });
  return { state, causes, next, notes: notesOf(draws, ranked, asked, { causes, next, well }) };
}

function evenly(draws: Draws): Float64Array {
  return new Float64Array(draws.count).fill(1 / draws.count);
}

/** Two causes at least so likely, the first not so many times likelier, are hard to tell apart. */
const ALIKE = { least: 0.15, times: 3.5 } as const;
/** A test tells two apart when it brings so many bits. */
const TELLS_APART = 0.25;
/** Something else this likely means that none of the list fits; above the lower, two at once are tried. */
const NONE_FITS = 0.5;
const TRY_PAIRS = 0.15;
/** A pair must explain the readings so many times better than the best single cause. */
const PAIR_BETTER = 12;

function notesOf(
  draws: Draws,
  ranked: readonly Ranked[],
  asked: Asked,
  found: { readonly causes: readonly DiagnosedCause[]; readonly next: readonly NextTest[]; readonly well: Expected },
): readonly Note[] {
  const unrecorded: readonly Note[] = asked.record === null ? [{ code: 'no-record' }] : [];
  if (isEmpty(asked.now)) return [{ code: 'nothing-read' }, ...unrecorded];
  const notes: Note[] = [];
  const [first, second] = found.causes;
  const other = ranked.find(({ code }) => code === 'something-else')?.chance ?? 0;
  if (other >= TRY_PAIRS || strays(draws, asked, first)) {
    const pair = bestPair(draws, ranked, asked, singleLikelihood(ranked, asked));
    if (pair !== null && pair.better >= PAIR_BETTER) notes.push({ code: 'more-than-one', causes: pair.codes });
  }
  if (other >= NONE_FITS && notes.length === 0) notes.push({ code: 'none-fits' });
  if (first !== undefined && second !== undefined && alike(first, second)) {
    const [best] = found.next;
    const by = found.next.find(({ bits }) => bits >= TELLS_APART) ?? null;
    notes.push({
      code: 'cannot-tell-apart',
      causes: [first.code, second.code],
      by: by ?? (best && best.bits > 0 ? by : null),
    });
  }
  const [now, well] = [first?.expected?.values, found.well.values].map((values) => values && efficiencyOf(values));
  if (first?.code === 'valve-light' && now != null && well != null && now > well) {
    notes.push({ code: 'no-fault-if-source-is-short', now, well });
  }
  return [...notes, ...unrecorded];
}

/** A reading so many doubts away from what the first cause says is not explained by it. */
const STRAYS = 3;

function strays(draws: Draws, asked: Asked, first: DiagnosedCause | undefined): boolean {
  const expected = first?.expected;
  if (!expected) return false;
  return measuresOf(draws, asked).some((measure) => {
    const [reading, value] = [asked.now[measure.channel], expected.values[measure.channel]];
    if (reading === null || value === null || measure.doubt.scale === 'yes-no') return false;
    return Math.abs(apart(measure, reading, value)) > STRAYS * measure.deviation;
  });
}

function alike(first: DiagnosedCause, second: DiagnosedCause): boolean {
  if (first.code === 'something-else' || second.code === 'something-else') return false;
  return second.chance >= ALIKE.least && first.chance <= ALIKE.times * second.chance;
}

function isEmpty(now: Readings): boolean {
  return Object.values(now).every((value) => value === null || (Array.isArray(value) && value.length === 0));
}
