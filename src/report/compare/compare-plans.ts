import { materialNeeds } from '../../evaluation/evaluate/materials.ts';
import type { Finding } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { findingWords } from '../findings/finding-words.ts';
import { pipeBill } from '../tables/pipe-bill.ts';
import { nameOf } from '../words/measure-words.ts';
import { moneyWords } from '../words/money-words.ts';
import { VERDICT_WORDS } from '../words/role-words.ts';
import { pumpRows, tankRows, troughRows } from './compared-results.ts';
import type { ComparedPair, ComparedPlan } from './compared-row.ts';
import { type ComparedRow, numberRow, wordsRow } from './compared-row.ts';
import { plansApart } from './plans-apart.ts';

/** Findings that do not hold in one of the two plans: gained, gone, or in both. */
function findingRows({ one, other }: ComparedPair, units: UnitSystem): ComparedRow[] {
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

export interface ComparedPart {
  readonly title: string;
  readonly rows: readonly ComparedRow[];
}

/** Two plans side by side: what comes of each, what is laid, what stands open, and in what they differ as drawn. */
export function comparePlans(pair: ComparedPair, units: UnitSystem): readonly ComparedPart[] {
  const parts = [
    {
      title: 'Results',
      rows: [...pumpRows(pair, units), ...tankRows(pair, units), ...troughRows(pair, units)],
    },
    { title: 'Lengths along the ground', rows: lengthRows(pair, units) },
    { title: 'Pipe to buy', rows: billRows(pair, units) },
    { title: 'Open questions', rows: findingRows(pair, units) },
    { title: 'What was drawn or typed differently', rows: plansApart(pair.one.plan, pair.other.plan, units) },
  ];
  return parts.filter(({ rows }) => rows.length > 0);
}

/** The parts with only those rows in which the two differ. */
export function differingParts(parts: readonly ComparedPart[]): readonly ComparedPart[] {
  return parts.flatMap(({ title, rows }) => {
    const differing = rows.filter(({ standing }) => standing !== 'same');
    return differing.length === 0 ? [] : [{ title, rows: differing }];
  });
}

/** How many rows are the same in both plans. */
export function countSame(parts: readonly ComparedPart[]): number {
  return parts.reduce((sum, { rows }) => sum + rows.filter(({ standing }) => standing === 'same').length, 0);
}

/** How long each line is along the ground, and all of them. */
function lengthRows({ one, other }: ComparedPair, units: UnitSystem): ComparedRow[] {
  const [first, second] = [one, other].map(({ evaluation }) => new Map(evaluation.lines.map((l) => [l.id, l.slope])));
  if (first === undefined || second === undefined) return [];
  const rows = [...new Set([...first.keys(), ...second.keys()])].flatMap((id) => {
    const { plan } = second.has(id) ? other : one;
    return numberRow(nameOf(plan, id), [first.get(id), second.get(id)], 'length', units);
  });
  if (rows.length < 2) return rows;
  const [sum, otherSum] = [first, second].map((lengths) => [...lengths.values()].reduce((all, each) => all + each, 0));
  return [...rows, ...numberRow('All lines', [sum, otherSum], 'length', units)];
}

/** Lengths by size of pipe with the allowance that each plan asks for, and what it costs where there are prices. */
function billRows({ one, other }: ComparedPair, units: UnitSystem): ComparedRow[] {
  const [a, b] = [one, other].map(({ plan, evaluation }) => pipeBill(plan, evaluation, units));
  if (a === undefined || b === undefined) return [];
  const items = new Map([...a.pipes, ...b.pipes].map(({ need }) => [need.item, need.label]));
  const rows = [...items].flatMap(([item, label]) => {
    const [first, second] = [a, b].map(({ pipes }) => pipes.find(({ need }) => need.item === item)?.need.toBuy);
    return lengthOrNone(label, [first, second], units);
  });
  return [...rows, ...costRow([one, other], [a.total, b.total], units)];
}

/** The bills' totals as they are written; the difference only where both are in one currency. */
function costRow(
  [one, other]: readonly [ComparedPlan, ComparedPlan],
  totals: readonly [string | null, string | null],
  units: UnitSystem,
) {
  if (totals[0] === null && totals[1] === null) return [];
  const row = wordsRow('Priced pipe and pieces', totals);
  const [first, second] = [one, other].map(({ plan, evaluation }) => materialNeeds(plan, evaluation).total);
  const { currency } = other.plan.materials;
  if (row.standing === 'same' || first == null || second == null || currency !== one.plan.materials.currency)
    return [row];
  const by = moneyWords(Math.abs(second - first), currency, units);
  return [{ ...row, difference: `${second < first ? '−' : '+'}${by}` }];
}

/** A pipe that one plan has none of differs by all of it. */
function lengthOrNone(
  about: string,
  [one, other]: readonly [number | undefined, number | undefined],
  units: UnitSystem,
): ComparedRow[] {
  return numberRow(about, [one, other], 'length', units).map((row) => {
    const [all] = numberRow(about, [one ?? 0, other ?? 0], 'length', units);
    return { ...row, difference: all?.difference ?? null };
  });
}
