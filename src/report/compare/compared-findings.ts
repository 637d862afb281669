import type { Finding } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { findingWords } from '../findings/finding-words.ts';
import { nameOf } from '../words/measure-words.ts';
import { VERDICT_WORDS } from '../words/verdict-words.ts';
import type { ComparedPair, ComparedPlan } from './compared-pair.ts';
import { type ComparedRow, wordsRow } from './compared-row.ts';

/** Findings that do not hold in one of the two plans: gained, gone, or in both. */
export function findingRows({ one, other }: ComparedPair, units: UnitSystem): ComparedRow[] {
  const [first, second] = [byKey(one), byKey(other)];
  return [...new Set([...first.keys(), ...second.keys()])].flatMap((key) => {
    const [a, b] = [first.get(key), second.get(key)];
    if (!isOpen(a) && !isOpen(b)) return [];
    const about = b === undefined ? a && aboutWords(a, one, units) : aboutWords(b, other, units);
    if (about === undefined) return [];
    const row = wordsRow(about, [verdictOf(a), verdictOf(b)]);
    return [{ ...row, difference: isOpen(a) === isOpen(b) ? null : isOpen(b) ? 'gained' : 'gone' }];
  });
}

const byKey = ({ evaluation }: ComparedPlan): ReadonlyMap<string, Finding> =>
  new Map(evaluation.findings.map((finding) => [`${finding.code} ${finding.about}`, finding]));

const isOpen = (finding: Finding | undefined) => finding !== undefined && finding.verdict !== 'holds';

const verdictOf = (finding: Finding | undefined) => (finding === undefined ? null : VERDICT_WORDS[finding.verdict]);

function aboutWords(finding: Finding, { plan }: ComparedPlan, units: UnitSystem): string {
  const { title } = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
  return `${title}: ${nameOf(plan, finding.about)}`;
}
