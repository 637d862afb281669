import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { inSentence, TERMS, type Term } from '../words/terms.ts';

interface Told {
  readonly what: string;
  readonly kind: QuantityKind;
  readonly before: Estimate | null | undefined;
  readonly now: Estimate | null | undefined;
}

/** A measurement has told something where it moved a figure or took this share of its spread away. */
const TELLING = 0.2;

function isTold({ before, now }: Told): boolean {
  if (before == null || now == null) return now != null && before == null;
  const spread = before.high - before.low;
  return now.high - now.low < (1 - TELLING) * spread || Math.abs(now.likely - before.likely) > TELLING * spread;
}

const ends = ({ low, high, likely }: Estimate, kind: QuantityKind, units: UnitSystem): string =>
  low === high ? writeQuantity(likely, kind, units) : writeRange(low, high, kind, units);

function sentence({ what, kind, before, now }: Told, units: UnitSystem): string {
  if (now == null) return '';
  const was = before == null ? 'was not known' : `was ${ends(before, kind, units)}`;
  return `${what.charAt(0).toUpperCase()}${what.slice(1)} ${was}, now ${ends(now, kind, units)}.`;
}

/** What a measurement has changed: the figures that it moved or made surer, the fall first. Empty where it told nothing. */
export function measuredChange(before: Evaluation, now: Evaluation, plan: Plan, units: UnitSystem): string {
  const row = (term: Term, kind: QuantityKind, of: (e: Evaluation) => Estimate | null | undefined): Told => ({
    what: inSentence(term),
    kind,
    before: of(before),
    now: of(now),
  });
  const tanks = now.tanks.flatMap(({ id }) => {
    const tank = ({ tanks }: Evaluation) => tanks.find((each) => each.id === id);
    const name = nameOf(plan, id);
    return [
      { ...row(TERMS.lift, 'height', (e) => tank(e)?.lift), what: `${inSentence(TERMS.lift)} to ${name}` },
      {
        ...row(TERMS.arrives, 'daily-volume', (e) => tank(e)?.line?.deliveryPerDay),
        what: `what arrives at ${name} a day`,
      },
    ];
  });
  const told = [
    row(TERMS.fall, 'height', ({ pump }) => pump?.fall),
    { ...row(TERMS.sourceFlow, 'flow', ({ source }) => source.flow), what: 'what the source gives' },
    ...tanks,
  ].filter(isTold);
  return told
    .slice(0, MOST)
    .map((each) => sentence(each, units))
    .join(' ');
}

/** More sentences than this nobody reads. */
const MOST = 2;
