import { materialNeeds, type PieceNeed, type PipeNeed } from '../../evaluation/evaluate/materials.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from '../tables/report-table.ts';
import { nameOf } from '../words/measure-words.ts';
import { moneyWords } from '../words/money-words.ts';
import type { PrintSource } from './print-source.ts';
import { paragraph, part, sheetTable, written } from './sheet-node.ts';

/** What has to be bought: pipe along the ground with the allowance, pieces counted from the routes, prices of the user's own. */
export function materialsPart(source: PrintSource): FigureNode | null {
  const { plan, site } = source;
  if (site === null) return null;
  const needs = materialNeeds(plan, site.evaluation);
  if (needs.pipes.length + needs.pieces.length === 0) return null;
  const priced = needs.total !== null;
  const { allowance } = plan.materials;
  const more =
    allowance > 0
      ? `To buy is ${writeQuantity(allowance, 'share', source.units)} more, for waste and fit.`
      : 'Nothing is added for waste and fit: the plan states no allowance.';
  return part(
    'Materials',
    paragraph(`Lengths lie along the ground. ${more} Pieces are counted from the drawn lines.`),
    sheetTable(pipeRows(needs.pipes, source, priced), 'materials'),
    sheetTable(pieceRows(needs.pieces, source, priced), 'materials'),
    priced ? paragraph(`Total of what has a price: ${money(needs.total, source)}.`) : null,
    priced && needs.unpriced.length > 0 ? paragraph(`Without a price: ${needs.unpriced.join(', ')}.`) : null,
  );
}

function money(cost: number | null, { plan, units }: PrintSource): string {
  return cost === null ? UNKNOWN : moneyWords(cost, plan.materials.currency, units);
}

function pipeRows(pipes: readonly PipeNeed[], source: PrintSource, priced: boolean): Omit<ReportTable, 'title'> {
  const { plan, units } = source;
  const packed = pipes.some(({ packs }) => packs !== null);
  return {
    columns: [
      textColumn('Pipe'),
      numberColumn('Along the ground'),
      numberColumn('To buy'),
      ...(packed ? [textColumn('Coils or sticks')] : []),
      ...(priced ? [numberColumn('Cost')] : []),
      textColumn('For'),
    ],
    rows: pipes.map((need) => ({
      id: need.item,
      cells: [
        need.label,
        `${written(need.length, 'length', units)}${need.partly ? ' (a stretch without heights counts as level)' : ''}`,
        written(need.toBuy, 'length', units),
        ...(packed ? [need.packs === null ? UNKNOWN : `${need.packs} of ${written(need.pack, 'length', units)}`] : []),
        ...(priced ? [money(need.cost, source)] : []),
        need.routes.map((id) => nameOf(plan, id)).join(', '),
      ],
    })),
  };
}

function pieceRows(pieces: readonly PieceNeed[], source: PrintSource, priced: boolean): Omit<ReportTable, 'title'> {
  return {
    columns: [textColumn('Piece'), numberColumn('Count'), ...(priced ? [numberColumn('Cost')] : []), textColumn('For')],
    rows: pieces.map((need) => ({
      id: need.item,
      cells: [
        need.label,
        String(need.count),
        ...(priced ? [money(need.cost, source)] : []),
        need.routes.map((id) => nameOf(source.plan, id)).join(', '),
      ],
    })),
  };
}
