import type { Answer, AnswerState, MissingPart } from '../../evaluation/result/evaluation.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { estimateWords, measureWords, nameOf } from '../words/measure-words.ts';
import { findingTitle, wrongWords } from './finding-words.ts';

/** An answer in the reader's words: the sentence on top, and what stands beneath it. */
export interface AnswerWords {
  readonly sentence: string;
  /** What arrives against the need; empty where nothing can be said. */
  readonly arrives: string;
}

const MISSING: Readonly<Record<MissingPart, string>> = {
  source: 'the source',
  pump: 'the pump',
  supply: 'the supply line to the standpipe',
  drive: 'the drive pipe to the pump',
  destination: 'a tank or trough',
  delivery: 'a delivery line from the pump',
};

function listed(parts: readonly string[]): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`;
}

const chanceWords = (chance: number): string => {
  const tenths = Math.round(chance * 10);
  if (tenths <= 0) return 'but hardly likely';
  return tenths >= 10 ? 'almost surely' : `${tenths} in 10 times`;
};

/** How the amount stands to the need, as the second half of a sentence. */
function amountWords({ arrives }: Answer, units: UnitSystem): string {
  const { perDay, needPerDay, verdict } = arrives;
  if (perDay === null) return ', but how much arrives is not known until the source is measured';
  const likely = writeQuantity(perDay.likely, 'daily-volume', units);
  if (needPerDay === null || verdict === null) return ` and brings about ${likely}`;
  const need = `about ${likely}, and ${writeQuantity(needPerDay, 'daily-volume', units)} is needed`;
  if (verdict === 'holds') return ` and brings enough: ${need}`;
  if (verdict === 'measure') return ` and may bring enough: ${need}`;
  // What is enough today is not contradicted by a year that is not.
  if (arrives.because?.code === 'year-short') return `, but does not bring enough all year: ${need}`;
  return `, but brings too little: ${need}`;
}

/** What lies between the answer and the plan, as a few words. */
function reasonWords(answer: Answer, plan: Plan): string {
  const { because } = answer.runs;
  return because === null ? 'what is not known yet' : `${findingTitle(because)} (${nameOf(plan, because.about)})`;
}

/** What keeps it from running, as a few words. */
function stopWords(answer: Answer, plan: Plan): string {
  const { because } = answer.runs;
  return because === null ? 'what is not known yet' : `${wrongWords(because)} (${nameOf(plan, because.about)})`;
}

const SENTENCES: Readonly<Record<AnswerState, (answer: Answer, plan: Plan) => string>> = {
  incomplete: ({ missing }) =>
    `Not enough is drawn yet: ${listed(missing.map((part) => MISSING[part]))} ${missing.length > 1 ? 'are' : 'is'} missing.`,
  'no-ground': ({ runs }, plan) =>
    `The elevation file has no height ${runs.because === null ? 'where it is needed' : `at ${nameOf(plan, runs.because.about)}`}, so nothing can be worked out.`,
  'no-pump-needed': ({ arrives }, plan) =>
    `No pump is needed: ${arrives.about === null ? 'the outlet' : nameOf(plan, arrives.about)} is below the source, and water runs there by itself.`,
  gravity: (answer, plan) => gravitySentence(answer, plan),
  runs: (answer, plan) => `It will run${amountWords(answer, plan.units)}.`,
  'may-run': (answer, plan) =>
    `It may run${answer.runs.chance === null ? '' : ` (${chanceWords(answer.runs.chance)})`}; it depends on: ${reasonWords(answer, plan)}.`,
  stops: (answer, plan) => `It will not run as drawn: ${stopWords(answer, plan)}.`,
  pours: (answer, plan) =>
    `It will not beat: the waste valve of ${answer.runs.because === null ? 'the pump' : nameOf(plan, answer.runs.because.about)} stays open and pours the water away.`,
};

function gravitySentence(answer: Answer, plan: Plan): string {
  const { runs, arrives } = answer;
  if (runs.verdict === 'fails') return `The water will not run by itself as drawn: ${stopWords(answer, plan)}.`;
  if (runs.verdict === 'measure') return `The water may run by itself; it depends on: ${reasonWords(answer, plan)}.`;
  if (arrives.perDay === null) return 'No pump is drawn; the water runs by itself.';
  return `The water runs by itself${amountWords(answer, plan.units)}.`;
}

/** The answer for the whole plan in one sentence. */
export function answerSentence(answer: Answer, plan: Plan): string {
  return SENTENCES[answer.state](answer, plan);
}

/** What arrives, as a line beneath: with what would arrive if what stops it were mended. */
export function arrivesSentence({ state, arrives }: Answer, plan: Plan): string {
  const { about, perDay, ifRunningPerDay, needPerDay } = arrives;
  if (about === null || perDay === null) return '';
  const { units } = plan;
  const { likely, range } = estimateWords(perDay, 'daily-volume', units);
  const need = needPerDay === null ? '' : `; ${writeQuantity(needPerDay, 'daily-volume', units)} is needed`;
  const now = `${nameOf(plan, about)} gets ${likely}${range === null ? '' : ` (${range})`}${need}.`;
  const stands = state === 'stops' || state === 'pours' || perDay.likely <= 0;
  // Where nothing would arrive either, mending this one thing is no promise.
  if (!stands || ifRunningPerDay === null || ifRunningPerDay.likely <= 0) return now;
  const mended = writeQuantity(ifRunningPerDay.likely, 'daily-volume', units);
  return `${now} With that put right it would be about ${mended}.`;
}

/** What only a pump that runs can show. */
const AFTERWARDS: ReadonlySet<string> = new Set(['pump-efficiency', 'beats', 'gauge-swing', 'line-flow']);

/** What to measure first, as a line, or that a visit has nothing left to settle; empty where there is nothing to judge yet. */
export function firstSentence({ state, first }: Answer, plan: Plan): string {
  if (first === null) {
    return state === 'runs' || state === 'gravity' ? 'Everything that a visit can settle is settled.' : '';
  }
  const { title, aim } = measureWords(first, plan, plan.units);
  const what = `${title}${aim === null ? '' : ` ${aim}`}`;
  if (!AFTERWARDS.has(first.quantity)) return `Next: ${what.charAt(0).toLowerCase()}${what.slice(1)}.`;
  return `Everything that a visit can settle beforehand is settled. Once it runs: ${what.charAt(0).toLowerCase()}${what.slice(1)}.`;
}

/** A verdict on the plan as a whole, for marks and colours: whether it runs, and where it does whether it brings enough. */
export function answerVerdict({ state, runs, arrives }: Answer): Verdict | null {
  if (state === 'incomplete') return null;
  if (state === 'no-ground') return 'measure';
  if (state === 'no-pump-needed') return 'holds';
  if (runs.verdict !== 'holds') return runs.verdict;
  return arrives.verdict === 'fails' ? 'measure' : (arrives.verdict ?? 'holds');
}
