import type { FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { Finding } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { estimateWords } from '../words/measure-words.ts';
import type { FindingText } from './finding-text.ts';
import { FINDING_TEXTS } from './finding-texts.ts';

/** Everything a finding's sentence is made of, already in the words and units of the reader. */
export interface FindingWords {
  /** A few words for a heading. */
  readonly title: string;
  /** What is the case. */
  readonly sentence: string;
  /** What to do about it, in the imperative; empty when it holds. */
  readonly remedy: string;
}

/** Words that a finding carries by their code: why a ram does not beat, why a run does not fit, the months. */
const FACT_WORDS: Readonly<Record<string, string>> = {
  'month-1': 'January',
  'month-2': 'February',
  'month-3': 'March',
  'month-4': 'April',
  'month-5': 'May',
  'month-6': 'June',
  'month-7': 'July',
  'month-8': 'August',
  'month-9': 'September',
  'month-10': 'October',
  'month-11': 'November',
  'month-12': 'December',

  'waste-valve-sticks-open': 'the water never lifts the waste valve',
  'waste-valve-stays-shut': 'nothing lets the waste valve open again',
  'delivery-head-too-high': 'the pressure wave does not reach the delivery head',
  'check-valve-too-slow': 'more water comes back through the check valve before it shuts than went out',
  'waste-valve-too-slow': 'the waste valve takes too long over its stroke',
  'no-pump-needed': 'the outlet is not above the source',
  intake: 'it used more water than the pump can take',
  head: 'its lift is not above its fall',
  efficiency: 'no ram reaches the efficiency that it shows',
  model: 'a ram with these dimensions does not run at that fall and lift',
};

/** Names of points and routes, by id. */
export type NameOf = (id: string) => string;

/** A finding's value with its range, where it has one. */
function rangeOf({ value, quantity }: Finding, units: UnitSystem): string {
  if (value === null) return 'unknown';
  const { likely, range } = estimateWords(value, quantity, units);
  return range === null ? likely : `${likely} (${range})`;
}

/** What a finding is about, in a few words inside a sentence. */
export function findingTitle(finding: Finding): string {
  return lowered(FINDING_TEXTS[finding.code as FindingCode].title);
}

/** What is wrong where a finding fails, in a few words inside a sentence. */
export function wrongWords(finding: Finding): string {
  const text: FindingText = FINDING_TEXTS[finding.code as FindingCode];
  return text.wrong ?? lowered(text.title);
}

const lowered = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);

/** The sentence and the remedy of a finding. */
export function findingWords(
  finding: Finding,
  context: { readonly units: UnitSystem; readonly nameOf: NameOf },
): FindingWords {
  const { units, nameOf } = context;
  const text: FindingText = FINDING_TEXTS[finding.code as FindingCode];
  const write = (name: string, kind: Parameters<typeof writeQuantity>[1]) => {
    const fact = finding.facts[name];
    return typeof fact === 'number' ? writeQuantity(fact, kind, units) : String(fact ?? '');
  };
  const words = {
    about: nameOf(finding.about),
    value: rangeOf(finding, units),
    likely: finding.value === null ? 'unknown' : writeQuantity(finding.value.likely, finding.quantity, units),
    limit: finding.limit === null ? '' : writeQuantity(finding.limit, finding.quantity, units),
    fact: write,
    text: (name: string) => FACT_WORDS[String(finding.facts[name])] ?? String(finding.facts[name] ?? ''),
  };
  const { fails = text.measure, measure } = text;
  const remedy = finding.verdict === 'holds' ? '' : (finding.verdict === 'fails' ? fails : measure)(words);
  return { title: text.title, sentence: text.sentence(words), remedy };
}
