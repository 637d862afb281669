import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { PointRole } from '../../plan/model/plan.ts';
import { VERDICT_WORDS } from '../words/role-words.ts';
import { type FigureNode, figureNode } from './figure-node.ts';

const SHAPES: Readonly<Record<Verdict, string>> = {
  holds: 'M2 8.5L6 12.5L14 3.5',
  measure: 'M8 1.5L14.5 8L8 14.5L1.5 8ZM8 4.5V8.5M8 11V11.4',
  fails: 'M3 3L13 13M13 3L3 13',
};

/** A verdict by its shape alone, where a sentence beside it says the word. */
export function verdictShape(verdict: Verdict): FigureNode {
  return figureNode(
    'span',
    { class: `verdict-mark ${verdict}` },
    figureNode(
      'svg',
      { viewBox: '0 0 16 16', width: 13, height: 13, 'aria-hidden': 'true' },
      figureNode('path', { d: SHAPES[verdict] }),
    ),
  );
}

/** A verdict by its shape and its word: a tick, a diamond with a stroke, a cross. */
export function verdictSymbol(verdict: Verdict): FigureNode {
  const shape = verdictShape(verdict);
  return { ...shape, children: [...shape.children, ` ${VERDICT_WORDS[verdict]}`] };
}

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
