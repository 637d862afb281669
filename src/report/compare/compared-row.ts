import type { Differences } from '../../evaluation/evaluate/compare-drawn.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { difference, isSure } from '../../evaluation/statistics/apart.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeDifference, writeQuantity } from '../../units/write-quantity.ts';
import { estimateWords } from '../words/measure-words.ts';

/** A value in words, with its range where it has one. */
export interface ComparedValue {
  readonly words: string;
  readonly range: string | null;
}

/** One thing that two plans are compared by, in words; null where a plan has it not. */
export interface ComparedRow {
  readonly about: string;
  readonly one: ComparedValue | null;
  readonly other: ComparedValue | null;
  /** What the second has more (+) or less (−), or what became of it; null where there is nothing to say. */
  readonly difference: string | null;
  /** Between what and what the difference lies, where it was drawn; null otherwise. */
  readonly differenceRange: string | null;
  /** `apart` where the difference is sure (its 10-to-90 band, else both spreads, lie on one side), `within` where not, `same` where nothing differs. */
  readonly standing: 'apart' | 'within' | 'same' | 'other';
}

/** What a difference is worth, in words; empty where it has no spread to be held against. */
export const STANDING_WORDS: Readonly<Record<ComparedRow['standing'], string>> = {
  apart: 'real difference',
  within: 'can’t tell',
  same: 'the same',
  other: '',
};

type Both<T> = readonly [one: T | null | undefined, other: T | null | undefined];

/** What both say in words. */
export function wordsRow(about: string, [one, other]: Both<string>): ComparedRow {
  const standing = one === other ? 'same' : 'other';
  return { about, one: told(one), other: told(other), difference: null, differenceRange: null, standing };
}

/** Numbers without a spread: what differs is said, and whether it is much is left to the reader. */
export function numberRow(
  about: string,
  [one, other]: Both<number>,
  kind: QuantityKind,
  units: UnitSystem,
): ComparedRow[] {
  if (one == null && other == null) return [];
  const words = (value: number | null | undefined) => (value == null ? null : writeQuantity(value, kind, units));
  const row = wordsRow(about, [words(one), words(other)]);
  return [{ ...row, difference: one == null || other == null ? null : writeDifference([one, other], kind, units) }];
}

/**
 * Numbers with a spread. The difference is a clear one where the same draws of both plans say so, else where their spreads lie
 * apart. Nothing where neither plan has it.
 */
export function estimateRow(
  about: string,
  [one, other]: Both<Estimate>,
  { kind, units, drawn }: EstimateTerms,
): ComparedRow[] {
  if (one == null && other == null) return [];
  const value = (estimate: Estimate | null | undefined): ComparedValue | null => {
    if (estimate == null) return null;
    const { likely, range } = estimateWords(estimate, kind, units);
    return { words: likely, range };
  };
  const row = { about, one: value(one), other: value(other), differenceRange: null };
  if (one == null || other == null) return [{ ...row, difference: null, standing: 'other' }];
  const { apart, alike } = difference(one, other);
  if (alike && row.one?.words === row.other?.words) return [{ ...row, difference: null, standing: 'same' }];
  const by = writeDifference([one.likely, other.likely], kind, units);
  if (drawn == null) return [{ ...row, difference: by, standing: apart ? 'apart' : 'within' }];
  const [low, high] = [drawn.low, drawn.high].map((end) => writeDifference([0, end], kind, units));
  const range = low === high ? null : `${low} to ${high}`;
  return [{ ...row, difference: by, differenceRange: range, standing: isSure(drawn) ? 'apart' : 'within' }];
}

/** How numbers are told, and what they differ by draw by draw; absent where that is not known. */
export interface EstimateTerms {
  readonly kind: QuantityKind;
  readonly units: UnitSystem;
  readonly drawn?: Estimate | undefined;
}

function told(words: string | null | undefined): ComparedValue | null {
  return words == null ? null : { words, range: null };
}

/** A plan with what came of it. */
export interface ComparedPlan {
  readonly plan: Plan;
  readonly evaluation: Evaluation;
}

/** Two plans; what differs is told of the second against the first. Points and lines are the same ones by their ids. */
export interface ComparedPair {
  readonly one: ComparedPlan;
  readonly other: ComparedPlan;
  /** What the second has more, draw by draw; null where the two were only reckoned by themselves. */
  readonly drawn: Differences | null;
}

/** What makes a difference a clear one. */
export const clearWords = (drawn: ComparedPair['drawn']): string =>
  drawn === null
    ? 'A difference is clear only where the ranges of the two lie apart.'
    : 'What both rest on, such as the spring, the pump and the ground, is drawn once for both: a difference is clear where nine draws in ten agree on its side.';
