import type { TankMonth, TankYear } from '../../evaluation/result/evaluation.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { herdNotes } from '../tables/herd-notes.ts';
import { numberColumn, textColumn } from '../tables/report-table.ts';
import { monthName, yearFigure } from '../tables/year-figure.ts';
import { nameOf } from '../words/measure-words.ts';
import { SHEET_WIDTH } from './map-part.ts';
import { type PrintSource, spokenTanks } from './print-source.ts';
import { figureBlock, paragraph, part, sheetTable, subpart, written } from './sheet-node.ts';

const SIZE = { width: SHEET_WIDTH, height: 180 } as const;

/** The worst month of the tank that the answer is about, or that nobody has said how the year goes. */
export function yearSentences(source: PrintSource): readonly string[] {
  const { plan, units, site } = source;
  if (site === null || site.evaluation.tanks.length === 0) return [];
  const { years } = site.evaluation;
  if (years === null)
    return [
      plan.dryShare === null
        ? 'Worst month: not known. Neither a dry season nor a year was entered, so what was measured is counted on all year.'
        : `Worst month: not known, no year was entered. The numbers above are those of the dry season, with ${written(plan.dryShare, 'share', units)} of what was measured.`,
    ];
  const [first] = spokenTanks(source);
  const about = site.evaluation.answer.arrives.about ?? first?.id;
  const year = years.find(({ id }) => id === about);
  return year === undefined ? [] : [worstSentence(year, source)];
}

function worstSentence({ id, months }: TankYear, { plan, units }: PrintSource): string {
  const day = (value: number) => written(value, 'daily-volume', units);
  const [worst] = [...months.entries()].toSorted(([, a], [, b]) => b.daysShort - a.daysShort || left(a) - left(b));
  if (worst === undefined) return '';
  const [index, { deliveryPerDay, needPerDay, daysShort }] = worst;
  const short = months.reduce((sum, month) => sum + month.daysShort, 0);
  const how =
    daysShort === 0 ? 'Water never runs short.' : `Water runs short on ${daysShort} days of it, ${short} in the year.`;
  return `Worst month at ${nameOf(plan, id)}: ${monthName(index)}, when about ${day(deliveryPerDay)} arrive and ${day(needPerDay)} are needed. ${how}`;
}

const left = ({ deliveryPerDay, needPerDay }: TankMonth): number => deliveryPerDay - needPerDay;

/** The year at every tank, month by month; null until the user has said how source and weather go through it. */
export function yearPart(source: PrintSource): FigureNode | null {
  const { plan, site } = source;
  const years = site && site.evaluation.years;
  if (years === null) return null;
  const aside = new Set(plan.points.filter((p) => p.role === 'tank' && p.standing === 'set-aside').map(({ id }) => id));
  const wanted = years.filter(({ id }) => !aside.has(id));
  if (wanted.length === 0) return null;
  return part(
    'Through the year',
    paragraph(
      'The likely figures of a year that follows a year like it. A month without a share of its own for the source has the dry season’s; a waste valve whose intake is not set is set anew each month to what the source gives then.',
    ),
    ...herdNotes(plan, source.units).map((note) => paragraph(note)),
    ...wanted.map((year) => yearBlock(year, source)),
  );
}

function yearBlock({ id, months }: TankYear, { plan, units }: PrintSource): FigureNode | null {
  const name = nameOf(plan, id);
  const day = (value: number) => written(value, 'daily-volume', units);
  return subpart(
    name,
    figureBlock(yearFigure(months, { units, size: SIZE, title: `Through the year: ${name}` }), null),
    sheetTable({
      columns: [
        textColumn('Month'),
        numberColumn('Arrives a day'),
        numberColumn('Wanted a day'),
        numberColumn('Runs over'),
        numberColumn('Missing'),
        numberColumn('Days short'),
        numberColumn('Least in the tank'),
      ],
      rows: months.map((month, i) => ({
        id: String(i + 1),
        cells: [
          monthName(i),
          day(month.deliveryPerDay),
          day(month.needPerDay),
          written(month.overflow, 'volume', units),
          written(month.shortfall, 'volume', units),
          String(month.daysShort),
          written(month.lowest, 'volume', units),
        ],
      })),
    }),
  );
}
