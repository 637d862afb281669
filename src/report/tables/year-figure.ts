import type { TankMonth } from '../../evaluation/result/evaluation.ts';
import { DAY_S } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { UNITS } from '../../units/unit.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { textWidth } from '../figure/text-room.ts';
import { roundTicks } from '../figure/ticks.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;
const PLOT = { left: 84, top: 42, bottom: 22, right: 8 } as const;
const BAR_SHARE = 0.56;
const MOST_TICKS = 5;

/** Short name of a month by its index. */
export function monthName(index: number): string {
  return MONTHS[index] ?? String(index + 1);
}

/**
 * What arrives a day in each of twelve months, as bars, against what the herd wants, as a stroke over each bar. Months in
 * which the tank runs short carry a cross, so that they show without colour. Null without water in either.
 */
export function yearFigure(
  months: readonly TankMonth[],
  view: {
    readonly units: UnitSystem;
    readonly size: { readonly width: number; readonly height: number };
    readonly title: string;
  },
): FigureNode | null {
  const { units, size, title } = view;
  const top = Math.max(0, ...months.flatMap((m) => [m.deliveryPerDay, m.needPerDay]));
  if (months.length === 0 || top <= 0) return null;
  const foot = size.height - PLOT.bottom;
  const y = (value: number) => foot - (value / top) * (foot - PLOT.top);
  const step = (size.width - PLOT.left - PLOT.right) / months.length;
  const bars = months.map((month, i) => {
    const middle = PLOT.left + step * (i + 0.5);
    const half = (step * BAR_SHARE) / 2;
    const need = y(month.needPerDay);
    return figureNode(
      'g',
      { class: 'month', 'data-month': String(i + 1) },
      figureNode('title', {}, monthSentence(month, i, units)),
      figureNode('rect', {
        class: 'arrives',
        x: middle - half,
        y: y(month.deliveryPerDay),
        width: 2 * half,
        height: foot - y(month.deliveryPerDay),
      }),
      figureNode('path', { class: 'need-ground', d: stroke(middle, half, need) }),
      figureNode('path', { class: 'need', d: stroke(middle, half, need) }),
      month.daysShort > 0 ? figureNode('path', { class: 'short', d: cross(middle, PLOT.top - 13) }) : null,
      figureNode('text', { x: middle, y: foot + 15, 'text-anchor': 'middle' }, monthName(i)),
    );
  });
  const unit = UNITS[units === 'us' ? 'usGallonPerDay' : 'litrePerDay'].factor * DAY_S;
  const ticks = roundTicks({ from: 0, to: top / unit }, MOST_TICKS).values.map((value) => value * unit);
  const levels = ticks.map((value) =>
    figureNode(
      'g',
      { class: 'tick' },
      figureNode('line', { class: 'hair', x1: PLOT.left, x2: size.width - PLOT.right, y1: y(value), y2: y(value) }),
      figureNode(
        'text',
        { x: PLOT.left - 6, y: y(value) + 4, 'text-anchor': 'end' },
        writeQuantity(value, 'daily-volume', units),
      ),
    ),
  );
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'year-figure',
      viewBox: `0 0 ${size.width} ${size.height}`,
      width: size.width,
      height: size.height,
      role: 'img',
      'aria-label': title,
    },
    yearKey(size.width),
    ...levels,
    ...bars,
  );
}

/** A month in words, for whoever points at its bar. */
function monthSentence({ deliveryPerDay, needPerDay, daysShort }: TankMonth, index: number, units: UnitSystem): string {
  const day = (value: number) => writeQuantity(value, 'daily-volume', units);
  const short = daysShort === 0 ? '' : `, short on ${daysShort} days`;
  return `${monthName(index)}: ${day(deliveryPerDay)} arrive, ${day(needPerDay)} are needed${short}`;
}

const KEY_Y = 4;
const KEY_SIZE = 11;
const MARK = 14;

/** What bar, stroke and cross stand for, above the plot. */
function yearKey(width: number): FigureNode {
  const marks = [
    {
      words: 'arrives a day',
      at: (x: number) => figureNode('rect', { class: 'arrives', x, y: KEY_Y, width: MARK, height: 10 }),
    },
    {
      words: 'needed',
      at: (x: number) => figureNode('path', { class: 'need', d: `M${tenth(x)} ${KEY_Y + 5}h${MARK}` }),
    },
    {
      words: 'runs short',
      at: (x: number) => figureNode('path', { class: 'short', d: cross(x + MARK / 2, KEY_Y + 1) }),
    },
  ] as const;
  let x = Math.min(PLOT.left, Math.max(2, width - 260));
  const drawn = marks.flatMap(({ words, at }) => {
    const from = x;
    x += MARK + 5 + textWidth(words, KEY_SIZE) + 14;
    return [at(from), figureNode('text', { x: from + MARK + 5, y: KEY_Y + 9 }, words)];
  });
  return figureNode('g', { class: 'key' }, ...drawn);
}

function stroke(middle: number, half: number, y: number): string {
  return `M${tenth(middle - half - 4)} ${tenth(y)}H${tenth(middle + half + 4)}`;
}

function cross(x: number, y: number): string {
  return `M${tenth(x - 4)} ${tenth(y)}l8 8m0 -8l-8 8`;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
