import type { TankMonth, TankYear } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { numberColumn, type ReportTable, textColumn } from './report-table.ts';
import { monthName } from './year-figure.ts';

/** Twelve months of a tank: what arrives and is needed a day, on how many days it runs short, and how low it gets. */
export function yearTable({ months }: Pick<TankYear, 'months'>, name: string, units: UnitSystem): ReportTable {
  return {
    title: `The year at ${name}`,
    columns: [
      textColumn('Month'),
      numberColumn('Arrives'),
      numberColumn('Needed'),
      numberColumn('Days short'),
      numberColumn('Short by'),
      numberColumn('Lowest tank level'),
    ],
    rows: months.map((month, index) => ({
      id: monthName(index),
      cells: [
        monthName(index),
        writeQuantity(month.deliveryPerDay, 'daily-volume', units),
        writeQuantity(month.needPerDay, 'daily-volume', units),
        String(month.daysShort),
        month.shortfall === 0 ? '0' : writeQuantity(month.shortfall, 'volume', units),
        writeQuantity(month.lowest, 'volume', units),
      ],
    })),
  };
}

/** The year of a tank in one sentence. */
export function yearSentence({ months }: Pick<TankYear, 'months'>, units: UnitSystem): string {
  const sum = (of: (month: TankMonth) => number) => months.reduce((total, month) => total + of(month), 0);
  const days = sum((month) => month.daysShort);
  if (days === 0) return 'Enough water all year.';
  const lacking = writeQuantity(
    sum((month) => month.shortfall),
    'volume',
    units,
  );
  const short = months.flatMap((month, index) => (month.daysShort > 0 ? [monthName(index)] : []));
  return `Short on ${days} ${days === 1 ? 'day' : 'days'} in ${listed(short)}, by ${lacking}.`;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
