import { type FigureNode, figureNode } from './figure-node.ts';
import { type RangedPoint, rangedLayout } from './front-layout.ts';

/** Whole systems as water against outlay: a dot each with its range as a stroke, numbered, the best front joined. */
export interface SystemsView {
  readonly title: string;
  readonly points: readonly RangedPoint[];
  readonly size: { readonly width: number; readonly height: number };
  readonly axes: { readonly x: string; readonly y: string };
  /** Numbers along either axis, in the units shown. */
  readonly words: { readonly x: (value: number) => string; readonly y: (value: number) => string };
}

const DOT = 5;

/** Null without a system. */
export function systemsFigure({ title, points, size, axes, words }: SystemsView): FigureNode | null {
  if (points.length === 0) return null;
  const { frame, xTicks, yTicks, points: spots } = rangedLayout(points, size.width, size.height);
  const text = (x: number, y: number, anchor: string, said: string) =>
    figureNode('text', { x, y, 'text-anchor': anchor }, said);
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'systems-figure',
      viewBox: `0 0 ${size.width} ${size.height}`,
      width: size.width,
      height: size.height,
      role: 'img',
      'aria-label': title,
    },
    ...yTicks.flatMap(({ at, value }) => [
      figureNode('line', { class: 'hair', x1: frame.left, x2: frame.right, y1: at, y2: at }),
      text(frame.left + 4, at - 3, 'start', words.y(value)),
    ]),
    ...xTicks.map(({ at, value }) => text(at, frame.bottom + 15, 'middle', words.x(value))),
    text(frame.right, frame.bottom + 32, 'end', axes.x),
    text(frame.right, frame.top - 3, 'end', axes.y),
    figureNode('polyline', { class: 'front', points: spots.map(({ x, likely }) => `${x},${likely}`).join(' ') }),
    ...spots.flatMap(({ x, low, likely, high }, index) => [
      figureNode('line', { class: 'range', x1: x, x2: x, y1: low, y2: high }),
      figureNode('circle', { class: 'dot', cx: x, cy: likely, r: DOT }),
      text(x + DOT + 3, likely - DOT, 'start', String(index + 1)),
    ]),
  );
}
