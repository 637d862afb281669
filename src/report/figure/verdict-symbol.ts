import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import { VERDICT_WORDS } from '../words/verdict-words.ts';
import { type FigureNode, figureNode } from './figure-node.ts';

const SHAPES: Readonly<Record<Verdict, string>> = {
  holds: 'M2 8.5L6 12.5L14 3.5',
  measure: 'M8 1.5L14.5 8L8 14.5L1.5 8ZM8 4.5V8.5M8 11V11.4',
  fails: 'M3 3L13 13M13 3L3 13',
};

/** A verdict by its shape and its word: a tick, a diamond with a stroke, a cross. */
export function verdictSymbol(verdict: Verdict): FigureNode {
  return figureNode(
    'span',
    { class: `verdict-mark ${verdict}` },
    figureNode(
      'svg',
      { viewBox: '0 0 16 16', width: 13, height: 13, 'aria-hidden': 'true' },
      figureNode('path', { d: SHAPES[verdict] }),
    ),
    ` ${VERDICT_WORDS[verdict]}`,
  );
}
