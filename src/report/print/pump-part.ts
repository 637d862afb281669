import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { numberColumn, type ReportTable, textColumn } from '../tables/report-table.ts';
import { standpipeCourseSentence, standpipeFacts, standpipePlacesSentence } from '../tables/standpipe-facts.ts';
import { nameOf } from '../words/measure-words.ts';
import { drawnWords, efficiencySentence, efficiencyWords } from '../words/pump-size-words.ts';
import { TERMS } from '../words/terms.ts';
import type { PrintSource } from './print-source.ts';
import { paragraph, part, sheetTable, subpart } from './sheet-node.ts';

/** A quantity with its estimate; a row without one is left out. */
export type SpreadRow = readonly [id: string, what: string, estimate: Estimate | null, kind: QuantityKind];

/** A table of low, likely and high. */
export function spreadRows(rows: readonly SpreadRow[], units: UnitSystem): Omit<ReportTable, 'title'> {
  return {
    columns: [textColumn('What'), numberColumn('Low'), numberColumn('Likely'), numberColumn('High')],
    rows: rows.flatMap(([id, what, estimate, kind]) => {
      if (estimate === null) return [];
      const numbers = [estimate.low, estimate.likely, estimate.high].map((value) => writeQuantity(value, kind, units));
      return [{ id, cells: [what, ...numbers] }];
    }),
  };
}

/** Source, pump and standpipe: heads, flows, efficiency, how the level moves, where the standpipe can stand. */
export function pumpPart({ plan, units, site }: PrintSource): FigureNode | null {
  if (site === null) return null;
  const { pump, source, standpipe } = site.evaluation;
  const rows: readonly SpreadRow[] = [
    ['source', `${TERMS.sourceFlow.plain} ${TERMS.sourceFlow.hint}`, source.flow, 'flow'],
    ['available', `${TERMS.available.plain} (${TERMS.available.hint})`, source.available, 'flow'],
    ['fall-rest', TERMS.fallAtRest.plain, pump?.fallAtRest ?? null, 'height'],
    ['fall', TERMS.fall.plain, pump?.fall ?? null, 'height'],
    [
      'takes',
      pump === null || pump.count === 1 ? TERMS.driveFlow.plain : `${TERMS.driveFlow.plain} of ${pump.count} pumps`,
      pump?.driveFlow ?? null,
      'flow',
    ],
    ['supply', TERMS.supplyLimit.plain, pump?.supplyLimit ?? null, 'flow'],
  ];
  const efficiency =
    pump === null || plan.pump === null
      ? null
      : paragraph(
          `${plan.pump.label}: efficiency ${efficiencyWords(pump.efficiency, units)}. ${efficiencySentence(plan.pump, pump.measuredRuns)}`,
        );
  const drawn = drawnWords(source, units);
  const standing = standpipe === null ? null : standpipePlacesSentence(standpipe, units);
  return part(
    'Source and pump',
    sheetTable(spreadRows(rows, units)),
    drawn === null ? null : paragraph(`Troughs on the source use ${drawn}.`),
    efficiency,
    standpipe === null
      ? null
      : subpart(
          nameOf(plan, standpipe.id),
          sheetTable({
            columns: [textColumn('Standpipe'), numberColumn('Value')],
            rows: standpipeFacts(standpipe, units).map(({ field, name, words }) => ({
              id: field,
              cells: [name, words],
            })),
          }),
          paragraph(standpipeCourseSentence(standpipe, units)),
          standing === null ? null : paragraph(standing),
        ),
  );
}
