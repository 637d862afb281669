import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { QuantityKind } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from '../tables/report-table.ts';
import { nameOf } from '../words/measure-words.ts';
import type { PrintSource } from './print-source.ts';
import { MOST_TANKS, spokenTanks } from './print-source.ts';
import { otherUnits } from './sheet-node.ts';

interface Told {
  readonly id: string;
  readonly what: string;
  readonly estimate: Estimate | null;
  readonly kind: QuantityKind;
}

/** The few numbers that an owner asks for, each with its spread and in the other units. */
export function numberRows(source: PrintSource): Omit<ReportTable, 'title'> {
  const { units } = source;
  const other = otherUnits(units);
  return {
    columns: [
      textColumn('What'),
      numberColumn('Likely'),
      numberColumn('8 in 10 times between'),
      numberColumn('In other units'),
    ],
    rows: told(source).flatMap(({ id, what, estimate, kind }) => {
      if (estimate === null) return [];
      const { low, likely, high } = estimate;
      const spread = low === high ? UNKNOWN : writeRange(low, high, kind, units);
      const cells = [what, writeQuantity(likely, kind, units), spread, writeQuantity(likely, kind, other)];
      return [{ id, cells }];
    }),
  };
}

function told(source: PrintSource): readonly Told[] {
  const { plan, site } = source;
  if (site === null) return [];
  const { pump, source: water } = site.evaluation;
  const head: readonly Told[] = [
    { id: 'fall', what: 'Fall that drives the pump', estimate: pump?.fall ?? null, kind: 'height' },
    { id: 'available', what: 'Water that the source may give', estimate: water.available, kind: 'flow' },
    {
      id: 'takes',
      what: pump === null || pump.count === 1 ? 'Water that the pump takes' : `Water that the ${pump.count} pumps take`,
      estimate: pump?.driveFlow ?? null,
      kind: 'flow',
    },
  ];
  const tanks = spokenTanks(source).flatMap(({ id, lift, line, demandPerDay }): Told[] => {
    const name = nameOf(plan, id);
    const need = demandPerDay === null ? null : { low: demandPerDay, likely: demandPerDay, high: demandPerDay };
    return [
      { id: `${id} lift`, what: `Lift from the pump to ${name}`, estimate: lift, kind: 'height' },
      {
        id: `${id} day`,
        what: `Arrives at ${name} a day`,
        estimate: line?.deliveryPerDay ?? null,
        kind: 'daily-volume',
      },
      { id: `${id} need`, what: `Needed at ${name} a day`, estimate: need, kind: 'daily-volume' },
    ];
  });
  return tanks.length > 0 ? [...tanks, ...head] : [...head, ...troughsOf(source)];
}

/** Troughs stand for themselves where no pump lifts water to a tank. */
function troughsOf({ plan, site }: PrintSource): readonly Told[] {
  const troughs = (site?.evaluation.troughs ?? []).filter(({ flow }) => flow !== null).slice(0, MOST_TANKS);
  return troughs.flatMap(({ id, flow, needPerDay }): Told[] => {
    const name = nameOf(plan, id);
    const need = needPerDay === null ? null : { low: needPerDay, likely: needPerDay, high: needPerDay };
    return [
      { id: `${id} flow`, what: `Flow into ${name}, its valve open`, estimate: flow, kind: 'flow' },
      { id: `${id} need`, what: `Needed at ${name} a day`, estimate: need, kind: 'daily-volume' },
    ];
  });
}
