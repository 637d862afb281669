import { materialNeeds } from '../../evaluation/evaluate/materials.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { pipeBill } from '../tables/pipe-bill.ts';
import { nameOf } from '../words/measure-words.ts';
import { moneyWords } from '../words/money-words.ts';
import type { ComparedPair, ComparedPlan } from './compared-pair.ts';
import { type ComparedRow, numberRow, wordsRow } from './compared-row.ts';

/** How long each line is along the ground, and all of them. */
export function lengthRows({ one, other }: ComparedPair, units: UnitSystem): ComparedRow[] {
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
export function billRows({ one, other }: ComparedPair, units: UnitSystem): ComparedRow[] {
  const [a, b] = [one, other].map(({ plan, evaluation }) => pipeBill(plan, evaluation, units));
  if (a === undefined || b === undefined) return [];
  const items = new Map([...a.pipes, ...b.pipes].map(({ need }) => [need.item, need.label]));
  const rows = [...items].flatMap(([item, label]) => {
    const [first, second] = [a, b].map(({ pipes }) => pipes.find(({ need }) => need.item === item)?.need.toBuy);
    return lengthOrNone(label, [first, second], units);
  });
  return [...rows, ...costRow([one, other], [a.total, b.total])];
}

/** The bills' totals as they are written; the difference only where both are in one currency. */
function costRow([one, other]: readonly [ComparedPlan, ComparedPlan], totals: readonly [string | null, string | null]) {
  if (totals[0] === null && totals[1] === null) return [];
  const row = wordsRow('Priced pipe and pieces', totals);
  const [first, second] = [one, other].map(({ plan, evaluation }) => materialNeeds(plan, evaluation).total);
  const { currency } = other.plan.materials;
  if (row.standing === 'same' || first == null || second == null || currency !== one.plan.materials.currency)
    return [row];
  const by = moneyWords(Math.abs(second - first), currency);
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
