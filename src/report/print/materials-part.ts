import { routesToBuild } from '../../evaluation/evaluate/materials.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { type PieceLine, type PipeBill, type PipeLine, pipeBill } from '../tables/pipe-bill.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from '../tables/report-table.ts';
import type { PrintSource } from './print-source.ts';
import { list, paragraph, part, sheetTable } from './sheet-node.ts';

/** The bill of the plan; null without ground or while nothing is drawn that takes pipe. */
function billOf({ plan, units, site }: PrintSource): PipeBill | null {
  const bill = site && pipeBill(plan, site.evaluation, units);
  return bill === null || bill.pipes.length + bill.pieces.length === 0 ? null : bill;
}

/** What has to be bought and dug: pipe along the ground with the allowance, trench, pieces, prices of the user's own. */
export function materialsPart(source: PrintSource): FigureNode | null {
  const bill = billOf(source);
  if (bill === null) return null;
  const priced = bill.total !== null;
  const lengths = [...bill.pipes, ...bill.trenches];
  return part(
    'Materials',
    paragraph(
      `Lengths are along the ground. ${allowanceWords(source)} Pieces are counted from the drawn lines and their ends. ${candidateWords(source)}`.trimEnd(),
    ),
    sheetTable(lengthRows(lengths, priced), 'materials'),
    sheetTable(pieceRows(bill.pieces, priced), 'materials'),
    ...totalLines(bill),
  );
}

function allowanceWords({ plan, units }: PrintSource): string {
  const { allowance } = plan.materials;
  return allowance > 0
    ? `To buy is ${writeQuantity(allowance, 'share', units)} more, for waste and fit.`
    : 'Nothing is added for waste and fit: the plan states no allowance.';
}

/** While several places are open, the bill holds the lines of all. */
function candidateWords({ plan }: PrintSource): string {
  const built = new Set(routesToBuild(plan).flatMap(({ from, to }) => [from, to]));
  const open = plan.points.filter((p) => p.role === 'tank' && p.standing === 'candidate' && built.has(p.id));
  return open.length > 1
    ? `It holds the lines and tanks of all ${open.length} places that were compared: mark one as chosen to count that alone.`
    : '';
}

function totalLines({ total, without }: PipeBill): readonly FigureNode[] {
  if (total === null) return [paragraph('No prices are entered: this is the list to have priced.')];
  const what = without === null ? '' : `, ${without}`;
  return [figureNode('p', {}, figureNode('strong', {}, `Total: ${total}`), `${what}.`)];
}

/** The total with how much of the bill it covers. */
function shortTotal(bill: PipeBill): FigureNode {
  const lines = [...bill.pipes, ...bill.trenches, ...bill.pieces];
  const priced = lines.filter(({ cost }) => cost !== null).length;
  if (bill.total === null) return paragraph('No prices are entered: this is the list to have priced.');
  const of = priced === lines.length ? '.' : `, for the ${priced} of ${lines.length} lines that have a price.`;
  return figureNode('p', {}, figureNode('strong', {}, `Total: ${bill.total}`), of);
}

/** So many lines of the bill find room on the owner's pages. */
const MOST_LINES = 22;

/** The bill in short lines, for the owner. */
export function shortBill(source: PrintSource): readonly (FigureNode | null)[] {
  const bill = billOf(source);
  if (bill === null)
    return [paragraph('What has to be bought is counted once lines are drawn and an elevation file is open.')];
  const cost = (words: string | null) => (words === null ? '' : `: ${words}`);
  const lines = [
    ...[...bill.pipes, ...bill.trenches].map(
      (line) => `${line.packs ?? line.toBuy} ${line.need.label}${cost(line.cost)}`,
    ),
    ...bill.pieces.map((line) => `${line.need.count} × ${line.need.label}${cost(line.cost)}`),
  ];
  const left = lines.length - MOST_LINES;
  const shown = left > 0 ? [...lines.slice(0, MOST_LINES), `${left} more in the engineer’s appendix`] : lines;
  const candidates = candidateWords(source);
  return [shortTotal(bill), list(shown, 'short-bill'), candidates === '' ? null : paragraph(candidates, 'small')];
}

function lengthRows(lines: readonly PipeLine[], priced: boolean): Omit<ReportTable, 'title'> {
  const packed = lines.some(({ packs }) => packs !== null);
  return {
    columns: [
      textColumn('Pipe and trench'),
      numberColumn('Along the ground'),
      numberColumn('To buy or dig'),
      ...(packed ? [textColumn('Coils or sticks')] : []),
      ...(priced ? [numberColumn('Cost')] : []),
      textColumn('For'),
    ],
    rows: lines.map(({ need, length, toBuy, packs, cost, routes }) => ({
      id: need.item,
      cells: [
        need.label,
        `${length}${need.partly ? ' (a stretch without heights counts as level)' : ''}`,
        toBuy,
        ...(packed ? [packs ?? UNKNOWN] : []),
        ...(priced ? [cost ?? UNKNOWN] : []),
        routes,
      ],
    })),
  };
}

function pieceRows(pieces: readonly PieceLine[], priced: boolean): Omit<ReportTable, 'title'> {
  return {
    columns: [textColumn('Piece'), numberColumn('Count'), ...(priced ? [numberColumn('Cost')] : []), textColumn('For')],
    rows: pieces.map(({ need, cost, routes }) => ({
      id: need.item,
      cells: [need.label, String(need.count), ...(priced ? [cost ?? UNKNOWN] : []), routes],
    })),
  };
}
