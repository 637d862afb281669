import type { Finding } from '../evaluation/evaluation.ts';
import type { FindingCode } from '../evaluation/findings/catalogue.ts';
import type { UnitSystem } from '../units/kind.ts';
import { writeQuantity } from '../units/write-quantity.ts';
import { FINDING_TEXTS, type FindingText } from './finding-texts.ts';

/** Everything a finding's sentence is made of, already in the words and units of the reader. */
export interface FindingWords {
  /** A few words for a heading. */
  readonly title: string;
  /** What is the case. */
  readonly sentence: string;
  /** What to do about it, in the imperative; empty when it holds. */
  readonly remedy: string;
}

/** Names of points and routes, by id. */
export type NameOf = (id: string) => string;

/** Write a value of one side of the scale without a unit where the quantity has none. */
function rangeOf(finding: Finding, units: UnitSystem): string {
  const { value, quantity } = finding;
  if (value === null) return 'unknown';
  const likely = writeQuantity(value.likely, quantity, units);
  const low = writeQuantity(value.low, quantity, units);
  const high = writeQuantity(value.high, quantity, units);
  return low === likely && high === likely ? likely : `${likely} (${low} to ${high})`;
}

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
  };
  const remedy = finding.verdict === 'holds' ? '' : (finding.verdict === 'fails' ? text.fails : text.measure)(words);
  return { title: text.title, sentence: text.sentence(words), remedy };
}
