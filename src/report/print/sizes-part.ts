import { sizeOfPump } from '../../evaluation/evaluate/pump-catalogue.ts';
import { pumpSizes } from '../../evaluation/evaluate/pump-sizes.ts';
import { DAY } from '../../evaluation/statistics/estimate.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { numberColumn, textColumn, UNKNOWN } from '../tables/report-table.ts';
import { sizeInPlan, sizesCaveat } from '../tables/size-in-plan.ts';
import { MODEL_NOT_VALIDATED } from './caution-words.ts';
import type { PrintSource } from './print-source.ts';
import { paragraph, part, sheetTable, written } from './sheet-node.ts';

type SizeTable = NonNullable<ReturnType<typeof pumpSizes>>;
type SizeRow = SizeTable['rows'][number];
type Answer = SizeTable['answer'];

const VERDICTS: Readonly<Record<SizeRow['verdict'], string>> = {
  suits: 'suits',
  'leaves-water': 'runs, leaves water',
  'needs-more-water': 'needs more water',
  'does-not-run': 'does not run',
};

/** Why no size runs. */
const REASONS: Readonly<Record<string, string>> = {
  'too-little-water': 'there is too little water for the smallest',
  'waste-valve-sticks-open': 'the water never lifts the waste valve',
  'waste-valve-stays-shut': 'nothing lets the waste valve fall open again',
  'delivery-head-too-high': 'the pressure wave does not reach the delivery head',
  'no-pump-needed': 'the outlet is not above the source',
};

/** Which sizes of ram suit the source, modelled on steel drive pipes; null until heads and source are known. */
export function sizesPart({ plan, units, site }: PrintSource): FigureNode | null {
  const table = site && pumpSizes(plan, site.ground);
  if (site === null || table === null) return null;
  const chosen = sizeOfPump(plan, table.rows);
  const caveat = sizesCaveat(site.evaluation);
  const inPlan = (row: SizeRow): string[] | null => {
    if (row !== chosen) return null;
    const own = sizeInPlan(plan, site.evaluation);
    const [name = '', length = ''] = cellsOf(row, units);
    const perSecond = own.perDay && own.perDay.likely / DAY;
    return [
      name,
      length,
      own.sentence,
      written(own.takes?.likely, 'flow', units),
      written(perSecond, 'flow', units),
      UNKNOWN,
    ];
  };
  return part(
    'Sizes of pump',
    caveat === '' ? null : paragraph(caveat),
    paragraph(answerSentence(table.answer, units)),
    sheetTable({
      columns: [
        textColumn('Drive pipe'),
        numberColumn('Length'),
        textColumn('Verdict'),
        numberColumn('Takes'),
        numberColumn('Delivers'),
        numberColumn('Beats a minute'),
      ],
      rows: table.rows.map((row) => ({ id: row.size.inches, cells: inPlan(row) ?? cellsOf(row, units) })),
    }),
    paragraph(
      `The pump in the plan is told by its own sheet, the others are ordinary rams. For the highest line to a kept tank, or where none is kept to a place that is not set aside. Worked out for steel drive pipes, each at the setting that takes most of what is there. ${MODEL_NOT_VALIDATED}`,
      'small',
    ),
  );
}

function cellsOf({ size, length, lengthKeepsRules, verdict, run }: SizeRow, units: UnitSystem): string[] {
  const off = lengthKeepsRules ? '' : ', outside the rules of length';
  return [
    units === 'us' ? `${size.inches} in` : `DN ${size.nominal} (${size.inches} in)`,
    written(length, 'length', units),
    `${VERDICTS[verdict]}${off}`,
    written(run?.driveFlow, 'flow', units),
    written(run?.delivery, 'flow', units),
    run === null ? UNKNOWN : run.beatsPerMinute.toFixed(0),
  ];
}

function answerSentence(answer: Answer, units: UnitSystem): string {
  switch (answer.kind) {
    case 'one':
      return `One pump with a drive pipe of ${answer.size.inches} in; the model gives ${written(answer.delivery, 'flow', units)}.`;
    case 'two-side-by-side':
      return `Two pumps side by side with drive pipes of ${answer.size.inches} in; the model gives ${written(answer.delivery, 'flow', units)} together.`;
    case 'none':
      return `No usual size runs here: ${REASONS[answer.because] ?? answer.because}.`;
    case 'no-pump-needed':
      return 'The outlet is not above the source; no pump is needed.';
  }
}
