import type { TankResult, TroughResult } from '../../evaluation/result/evaluation.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { verdictSymbol } from '../figure/role-symbol.ts';
import { numberColumn, textColumn } from '../tables/report-table.ts';
import { governedWords, nameOf } from '../words/measure-words.ts';
import { CHOICE_WORDS } from '../words/role-words.ts';
import { TERMS } from '../words/terms.ts';
import type { PrintSource } from './print-source.ts';
import { type SpreadRow, spreadRows } from './pump-part.ts';
import { estimated, paragraph, part, sheetTable, subpart, together, written } from './sheet-node.ts';

/** Every tank with low, likely and high of what it asks and gets. */
export function tanksPart(source: PrintSource): FigureNode | null {
  const tanks = source.site?.evaluation.tanks ?? [];
  return part('Tanks', ...tanks.map((tank) => tankBlock(tank, source)));
}

function tankBlock(tank: TankResult, { plan, units }: PrintSource): FigureNode | null {
  const { id, lift, line, verdict } = tank;
  const rows: readonly SpreadRow[] = [
    ['lift', TERMS.lift.plain, lift, 'height'],
    ['governing', TERMS.governingLift.plain, line?.governingLift ?? null, 'height'],
    ['over-fall', TERMS.liftOverFall.plain, line?.liftOverFall ?? null, 'ratio'],
    ['delivery', 'Flow that arrives', line?.delivery ?? null, 'flow'],
    ['day', TERMS.arrives.plain, line?.deliveryPerDay ?? null, 'daily-volume'],
  ];
  const title = [nameOf(plan, id), ...(verdict === null ? [] : [' ', verdictSymbol(verdict)])];
  return together(
    subpart(title, sheetTable(spreadRows(rows, units)), paragraph(tankSentences(tank, { plan, units }).join(' '))),
  );
}

function tankSentences(
  { id, line, demandPerDay, storageDays }: TankResult,
  { plan, units }: Pick<PrintSource, 'plan' | 'units'>,
): string[] {
  const point = plan.points.find((p) => p.id === id);
  const standing = point?.role === 'tank' ? `Choice: ${CHOICE_WORDS[point.standing]}.` : null;
  const friction = line?.friction ?? null;
  return [
    ...(standing === null ? [] : [standing]),
    ...(line === null
      ? ['Its delivery line is not drawn yet.']
      : [`The highest lift on the way is ${governedWords(line.governedBy, units)}.`]),
    ...(friction === null ? [] : [`Friction up to there takes ${writeQuantity(friction, 'height', units)}.`]),
    ...(demandPerDay === null
      ? []
      : [`The animals that drink from it need ${writeQuantity(demandPerDay, 'daily-volume', units)}.`]),
    ...(storageDays === null ? [] : [`Full, it lasts them ${storageDays.toFixed(1)} days.`]),
  ];
}

/** Every trough: flow, pressure at its valve, height below the source. */
export function troughsPart({ plan, units, site }: PrintSource): FigureNode | null {
  const troughs = site?.evaluation.troughs ?? [];
  return part(
    'Troughs',
    sheetTable({
      columns: [
        textColumn('Trough'),
        numberColumn(TERMS.needed.plain),
        numberColumn(TERMS.troughFlow.plain),
        numberColumn(TERMS.stillHead.plain),
        numberColumn(TERMS.belowSource.plain),
      ],
      rows: troughs.map(({ id, needPerDay, flow, stillHead, belowSource }: TroughResult) => ({
        id,
        cells: [
          nameOf(plan, id),
          written(needPerDay, 'daily-volume', units),
          estimated(flow, 'flow', units),
          estimated(stillHead, 'height', units),
          estimated(belowSource, 'height', units),
        ],
      })),
    }),
  );
}
