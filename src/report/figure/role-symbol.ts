import type { PointRole } from '../../plan/model/plan.ts';
import { type FigureNode, figureNode } from './figure-node.ts';

const DRAWINGS: Readonly<Record<PointRole, readonly FigureNode[]>> = {
  source: [
    figureNode('circle', { class: 'body', cx: 0, cy: -3, r: 5 }),
    figureNode('path', { class: 'stroke', d: 'M0 -3C4 1 -4 4 1 9' }),
  ],
  standpipe: [
    figureNode('path', { class: 'body', d: 'M-3 -9V9H3V-9' }),
    figureNode('path', { class: 'stroke', d: 'M-3 -4H3' }),
  ],
  pump: [
    figureNode('path', { class: 'body', d: 'M-8 0L0 -8L8 0L0 8Z' }),
    figureNode('path', { class: 'stroke', d: 'M-2.5 -3L1.5 0L-2.5 3M3 -3V3' }),
  ],
  tank: [
    figureNode('path', { class: 'body', d: 'M-8 -6V6H8V-6' }),
    figureNode('path', { class: 'stroke', d: 'M-8 -1H8' }),
  ],
  trough: [
    figureNode('path', { class: 'body', d: 'M-9 -4L-6 4H6L9 -4' }),
    figureNode('path', { class: 'stroke', d: 'M-8 -1H8' }),
  ],
};

/** The symbol of a point by its role, drawn around 0, 0 within ±10: told apart by outline, not by colour. */
export function roleSymbol(role: PointRole): FigureNode {
  return figureNode('g', { class: `symbol ${role}` }, ...DRAWINGS[role]);
}
