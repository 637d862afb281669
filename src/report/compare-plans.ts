import { difference } from '../evaluation/apart.ts';
import type { Estimate } from '../evaluation/estimate.ts';
import type { Evaluation, TankResult } from '../evaluation/evaluation.ts';
import type { Plan } from '../plan/plan.ts';
import type { QuantityKind, UnitSystem } from '../units/kind.ts';
import { writeQuantity } from '../units/write-quantity.ts';
import { type ComparedRow, told } from './compared-row.ts';
import { estimateWords } from './estimate-words.ts';
import { findingWords } from './finding-words.ts';
import { nameOf } from './measure-words.ts';
import { pipeBill } from './pipe-bill.ts';
import { plansApart } from './plans-apart.ts';
import { planSentence, VERDICT_WORDS } from './verdict-words.ts';

/** A plan with what came of it. */
export interface ComparedPlan {
  readonly plan: Plan;
  readonly evaluation: Evaluation;
}

export interface ComparedPart {
  readonly title: string;
  readonly rows: readonly ComparedRow[];
}

/** Two plans side by side: what comes of each, what is laid, what stands open, and in what they differ as drawn. */
export function comparePlans(one: ComparedPlan, other: ComparedPlan, units: UnitSystem): readonly ComparedPart[] {
  const parts = [
    { title: 'What comes of it', rows: [...mainRows(one, other, units), ...tankRows(one, other, units)] },
    { title: 'Pipe to lay', rows: billRows(one, other, units) },
    { title: 'What stands open', rows: findingRows(one, other, units) },
    { title: 'What was drawn or typed differently', rows: plansApart(one.plan, other.plan, units) },
  ];
  return parts.filter(({ rows }) => rows.length > 0);
}

function mainRows(one: ComparedPlan, other: ComparedPlan, units: UnitSystem): ComparedRow[] {
  const [a, b] = [one.evaluation, other.evaluation];
  return [
    wordsRow('Verdict', planSentence(a.verdict), planSentence(b.verdict)),
    ...estimateRow('Fall, running', [a.pump?.fall, b.pump?.fall], 'height', units),
    ...estimateRow('Fall, at rest', [a.pump?.fallAtRest, b.pump?.fallAtRest], 'height', units),
    ...estimateRow('The pump takes', [a.pump?.driveFlow, b.pump?.driveFlow], 'flow', units),
    ...estimateRow('The supply line brings', [a.pump?.supplyLimit, b.pump?.supplyLimit], 'flow', units),
  ];
}

/** Tanks are the same one when they have the same id, which a copy of a plan keeps. */
function tankRows(one: ComparedPlan, other: ComparedPlan, units: UnitSystem): ComparedRow[] {
  const ids = new Set([...one.evaluation.tanks, ...other.evaluation.tanks].map(({ id }) => id));
  return [...ids].flatMap((id) => {
    const [a, b] = [one, other].map(({ evaluation }) => evaluation.tanks.find((tank) => tank.id === id));
    const name = nameOf(a === undefined ? other.plan : one.plan, id);
    const lines: readonly [string, (tank: TankResult) => Estimate | null | undefined, QuantityKind][] = [
      ['lift', (tank) => tank.lift, 'height'],
      ['governing lift', (tank) => tank.line?.governingLift, 'height'],
      ['arrives a day', (tank) => tank.line?.deliveryPerDay, 'daily-volume'],
    ];
    return [
      ...lines.flatMap(([what, of, kind]) => estimateRow(`${name}: ${what}`, [a && of(a), b && of(b)], kind, units)),
      wordsRow(`${name}: verdict`, verdictOf(a), verdictOf(b)),
    ];
  });
}

const verdictOf = (tank: TankResult | undefined) => (tank?.verdict == null ? null : VERDICT_WORDS[tank.verdict]);

/** Lengths by pipe, and what it costs where there are prices. */
function billRows(one: ComparedPlan, other: ComparedPlan, units: UnitSystem): ComparedRow[] {
  const [a, b] = [one, other].map(({ plan, evaluation }) => pipeBill(plan, evaluation, units));
  if (a === undefined || b === undefined) return [];
  const items = new Map([...a.pipes, ...b.pipes].map(({ need }) => [need.item, need.label]));
  const rows = [...items].map(([item, label]) => {
    const [first, second] = [a, b].map(({ pipes }) => pipes.find(({ need }) => need.item === item)?.need.length ?? 0);
    return lengthRow(label, first ?? 0, second ?? 0, units);
  });
  return a.total === null && b.total === null ? rows : [...rows, wordsRow('Priced pipe and pieces', a.total, b.total)];
}

function lengthRow(about: string, one: number, other: number, units: UnitSystem): ComparedRow {
  const words = (length: number) => (length === 0 ? null : writeQuantity(length, 'length', units));
  const by = other - one;
  const same = words(one) === words(other);
  return {
    about,
    one: told(words(one)),
    other: told(words(other)),
    difference: same ? null : signed(by, 'length', units),
    standing: same ? 'same' : 'other',
  };
}

/** Findings that do not hold in one of the two, or not alike. */
function findingRows(one: ComparedPlan, other: ComparedPlan, units: UnitSystem): ComparedRow[] {
  const open = [one, other].map(({ plan, evaluation }) => {
    const found = evaluation.findings.filter(({ verdict }) => verdict !== 'holds');
    return new Map(
      found.map((finding) => {
        const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
        const about = `${words.title}: ${nameOf(plan, finding.about)}`;
        return [`${finding.code} ${finding.about}`, { about, verdict: VERDICT_WORDS[finding.verdict] }] as const;
      }),
    );
  });
  const keys = new Set(open.flatMap((each) => [...each.keys()]));
  return [...keys].flatMap((key) => {
    const [a, b] = open.map((each) => each.get(key));
    const about = (a ?? b)?.about;
    return about === undefined ? [] : [wordsRow(about, a?.verdict ?? 'holds', b?.verdict ?? 'holds')];
  });
}

type Maybe = Estimate | null | undefined;

function estimateRow(
  about: string,
  [one, other]: readonly [Maybe, Maybe],
  kind: QuantityKind,
  units: UnitSystem,
): ComparedRow[] {
  if (one == null && other == null) return [];
  const value = (estimate: Maybe) => {
    if (estimate == null) return null;
    const { likely, range } = estimateWords(estimate, kind, units);
    return { words: likely, range };
  };
  const row = { about, one: value(one), other: value(other) };
  if (one == null || other == null) return [{ ...row, difference: null, standing: 'other' }];
  const by = difference(one, other);
  // What is the same in the digits that are shown differs in nothing that counts.
  if (row.one?.words === row.other?.words) return [{ ...row, difference: null, standing: 'same' }];
  return [{ ...row, difference: signed(by.by, kind, units), standing: by.apart ? 'apart' : 'within' }];
}

function wordsRow(about: string, one: string | null, other: string | null): ComparedRow {
  return { about, one: told(one), other: told(other), difference: null, standing: one === other ? 'same' : 'other' };
}

function signed(by: number, kind: QuantityKind, units: UnitSystem): string {
  return `${by > 0 ? '+' : ''}${writeQuantity(by, kind, units)}`;
}
