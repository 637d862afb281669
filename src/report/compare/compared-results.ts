import type { TankResult, TroughResult } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { answerSentence } from '../findings/answer-words.ts';
import { governedWords, nameOf } from '../words/measure-words.ts';
import { VERDICT_WORDS } from '../words/role-words.ts';
import { inSentence, TERMS } from '../words/terms.ts';
import type { ComparedPair } from './compared-row.ts';
import { type ComparedRow, estimateRow, numberRow, wordsRow } from './compared-row.ts';

/** The verdict, and everything between the source and the pump. */
export function pumpRows({ one, other, drawn }: ComparedPair, units: UnitSystem): ComparedRow[] {
  const terms = (kind: QuantityKind, key: string) => ({ kind, units, drawn: drawn?.get(key) });
  const [a, b] = [one.evaluation, other.evaluation];
  const places = [a.standpipe?.places?.best, b.standpipe?.places?.best] as const;
  return [
    wordsRow('Answer', [answerSentence(a.answer, one.plan), answerSentence(b.answer, other.plan)]),
    ...estimateRow(TERMS.available.plain, [a.source.available, b.source.available], { kind: 'flow', units }),
    ...estimateRow(TERMS.supplyLimit.plain, [a.pump?.supplyLimit, b.pump?.supplyLimit], terms('flow', 'supply-limit')),
    ...estimateRow(TERMS.driveFlow.plain, [a.pump?.driveFlow, b.pump?.driveFlow], terms('flow', 'drive-flow')),
    ...estimateRow(TERMS.fallAtRest.plain, [a.pump?.fallAtRest, b.pump?.fallAtRest], terms('height', 'fall-at-rest')),
    ...estimateRow(TERMS.fall.plain, [a.pump?.fall, b.pump?.fall], terms('height', 'fall')),
    ...estimateRow(
      'Water over the standpipe’s inlet',
      [a.standpipe?.overInlet, b.standpipe?.overInlet],
      terms('height', 'over-inlet'),
    ),
    ...numberRow(
      'Standpipe best at, drive pipe from the pump',
      [places[0]?.driveLength, places[1]?.driveLength],
      'length',
      units,
    ),
    ...numberRow('Standpipe there as tall as', [places[0]?.height, places[1]?.height], 'height', units),
  ];
}

interface Measure<T> {
  readonly what: string;
  readonly kind: QuantityKind;
  /** What it is called among the draws. */
  readonly drawn: string;
  readonly of: (result: T) => Estimate | null | undefined;
}

const TANK_MEASURES: readonly Measure<TankResult>[] = [
  { what: inSentence(TERMS.lift), kind: 'height', drawn: 'lift', of: ({ lift }) => lift },
  {
    what: 'highest lift on the way, over a high point',
    kind: 'height',
    drawn: 'governing-lift',
    of: ({ line }) => overSummit(line),
  },
  {
    what: inSentence(TERMS.liftOverFall),
    kind: 'ratio',
    drawn: 'lift-over-fall',
    of: ({ line }) => line?.liftOverFall,
  },
  { what: inSentence(TERMS.arrives), kind: 'daily-volume', drawn: 'arrives', of: ({ line }) => line?.deliveryPerDay },
];

/** The governing lift where it is another than the lift itself. */
function overSummit(line: TankResult['line']): Estimate | null {
  return line === null || line.governedBy === 'outlet' ? null : line.governingLift;
}

export function tankRows(pair: ComparedPair, units: UnitSystem): ComparedRow[] {
  return pairedBy(pair, ({ tanks }) => tanks).flatMap(({ id, name, a, b }) => [
    ...estimateRows({ id, name, units, drawn: pair.drawn }, [a, b], TANK_MEASURES),
    ...numberRow(`${name}: ${inSentence(TERMS.needed)}`, [a?.demandPerDay, b?.demandPerDay], 'daily-volume', units),
    ...daysRow(`${name}: a full tank lasts`, [a?.storageDays, b?.storageDays]),
    ...wordsWhere(`${name}: highest lift on the way`, [governedBy(a, units), governedBy(b, units)]),
    wordsRow(`${name}: ${inSentence(TERMS.verdict)}`, [verdictOf(a), verdictOf(b)]),
  ]);
}

const TROUGH_MEASURES: readonly Measure<TroughResult>[] = [
  { what: inSentence(TERMS.troughFlow), kind: 'flow', drawn: 'feed-flow', of: ({ flow }) => flow },
  { what: inSentence(TERMS.stillHead), kind: 'height', drawn: 'feed-still-head', of: ({ stillHead }) => stillHead },
];

export function troughRows(pair: ComparedPair, units: UnitSystem): ComparedRow[] {
  return pairedBy(pair, ({ troughs }) => troughs).flatMap(({ id, name, a, b }) => [
    ...estimateRows({ id, name, units, drawn: pair.drawn }, [a, b], TROUGH_MEASURES),
    ...numberRow(`${name}: ${inSentence(TERMS.needed)}`, [a?.needPerDay, b?.needPerDay], 'daily-volume', units),
  ]);
}

interface RowsOf extends Pick<ComparedPair, 'drawn'> {
  readonly id: string;
  readonly name: string;
  readonly units: UnitSystem;
}

function estimateRows<T>(
  { id, name, units, drawn }: RowsOf,
  [a, b]: readonly [T | undefined, T | undefined],
  measures: readonly Measure<T>[],
): ComparedRow[] {
  return measures.flatMap((measure) =>
    estimateRow(`${name}: ${measure.what}`, [a && measure.of(a), b && measure.of(b)], {
      kind: measure.kind,
      units,
      drawn: drawn?.get(`${id} ${measure.drawn}`),
    }),
  );
}

interface Paired<T> {
  readonly id: string;
  readonly name: string;
  readonly a: T | undefined;
  readonly b: T | undefined;
}

function pairedBy<T extends { readonly id: string }>(
  { one, other }: ComparedPair,
  of: (evaluation: ComparedPair['one']['evaluation']) => readonly T[],
): readonly Paired<T>[] {
  const [first, second] = [of(one.evaluation), of(other.evaluation)];
  const ids = new Set([...first, ...second].map(({ id }) => id));
  return [...ids].map((id) => {
    const [a, b] = [first, second].map((all) => all.find((each) => each.id === id));
    return { id, name: nameOf(b === undefined ? one.plan : other.plan, id), a, b };
  });
}

const verdictOf = (tank: TankResult | undefined) => (tank?.verdict == null ? null : VERDICT_WORDS[tank.verdict]);

const governedBy = (tank: TankResult | undefined, units: UnitSystem) =>
  tank?.line == null ? null : governedWords(tank.line.governedBy, units);

const wordsWhere = (about: string, both: readonly [string | null, string | null]): ComparedRow[] =>
  both.every((words) => words === null) ? [] : [wordsRow(about, both)];

type MaybeDays = number | null | undefined;

/** Days are told to a tenth, as in the table of tanks. */
function daysRow(about: string, [one, other]: readonly [MaybeDays, MaybeDays]): ComparedRow[] {
  const words = (days: MaybeDays) => (days == null ? null : `${days.toFixed(1)} days`);
  const row = wordsRow(about, [words(one), words(other)]);
  if (one == null && other == null) return [];
  if (one == null || other == null || row.standing === 'same') return [row];
  const by = Number(other.toFixed(1)) - Number(one.toFixed(1));
  return [{ ...row, difference: `${by < 0 ? '−' : '+'}${Math.abs(by).toFixed(1)} days` }];
}
