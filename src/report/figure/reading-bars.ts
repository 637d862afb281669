import { type FigureNode, figureNode } from './figure-node.ts';

/** A reading beside what a cause would make of it. */
export interface ReadingBar {
  readonly label: string;
  readonly read: number | null;
  readonly expected: number | null;
  /** The same as text with units. */
  readonly readWords: string;
  readonly expectedWords: string;
}

const ROW = 40;
const LABEL = 15;
const BAR = 7;
const LEFT = 4;
/** Share of the width that bars may take; the figures stand at their right. */
const SHARE = 0.6;

/**
 * What was read (filled) against what a cause would make of it (outlined), a pair of bars for each reading, each pair on its own
 * scale. The figures stand beside the bars, so that nothing hangs on length or colour alone.
 */
export function readingBars(
  bars: readonly ReadingBar[],
  view: { readonly width: number; readonly title: string },
): FigureNode {
  const height = Math.max(1, bars.length) * ROW;
  const rows = bars.map((bar, i) => {
    const top = i * ROW;
    const most = Math.max(bar.read ?? 0, bar.expected ?? 0, Number.MIN_VALUE);
    const room = view.width * SHARE - LEFT;
    const length = (value: number | null) => Math.max(1, (Math.max(0, value ?? 0) / most) * room);
    const words = (y: number, x: number, text: string) =>
      figureNode('text', { class: 'figure', x: x + 6, y: y + BAR }, text);
    return figureNode(
      'g',
      { class: 'reading' },
      figureNode('text', { class: 'label', x: LEFT, y: top + LABEL - 3 }, bar.label),
      figureNode('rect', { class: 'read', x: LEFT, y: top + LABEL, width: length(bar.read), height: BAR }),
      words(top + LABEL, LEFT + length(bar.read), `read ${bar.readWords}`),
      figureNode('rect', {
        class: 'expected',
        x: LEFT,
        y: top + LABEL + BAR + 3,
        width: length(bar.expected),
        height: BAR,
      }),
      words(top + LABEL + BAR + 3, LEFT + length(bar.expected), `expected ${bar.expectedWords}`),
    );
  });
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'reading-bars',
      viewBox: `0 0 ${view.width} ${height}`,
      width: view.width,
      height,
      role: 'img',
      'aria-label': view.title,
    },
    ...rows,
  );
}
