import type { RunRecord } from '../../plan/model/plan.ts';
import { type FigureNode, figureNode } from './figure-node.ts';

const SERIES = [
  { key: 'beatsPerMinute', words: 'beats a minute' },
  { key: 'delivery', words: 'delivery' },
  { key: 'waste', words: 'waste' },
] as const;

const LEFT = 8;
const RIGHT = 8;
const BAND = 54;
const HEAD = 16;
const FOOT = 20;
const DAY_MS = 86_400_000;

/**
 * Records over their dates, a band for each reading, each on its own scale from 0, points joined by a line. Null with fewer than two
 * records that tell anything.
 */
export function recordFigure(
  records: readonly RunRecord[],
  view: { readonly width: number; readonly title: string; readonly write: (key: string, value: number) => string },
): FigureNode | null {
  const days = records.map(({ date }) => Date.parse(date) / DAY_MS);
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const shown = SERIES.filter(({ key }) => records.filter((record) => record[key] !== null).length > 1);
  if (shown.length === 0 || !(last > first)) return null;
  const height = shown.length * (BAND + HEAD) + FOOT;
  const x = (day: number) => LEFT + ((day - first) / (last - first)) * (view.width - LEFT - RIGHT);
  const bands = shown.map(({ key, words }, band) => {
    const points = records.flatMap((record, i) => {
      const value = record[key];
      return value === null ? [] : [{ day: days[i] as number, value }];
    });
    const most = Math.max(...points.map(({ value }) => value), Number.MIN_VALUE);
    const foot = (band + 1) * (BAND + HEAD);
    const y = (value: number) => foot - (value / most) * BAND;
    const path = points
      .map(({ day, value }, i) => `${i === 0 ? 'M' : 'L'}${tenth(x(day))} ${tenth(y(value))}`)
      .join('');
    const latest = points.at(-1)?.value ?? 0;
    return figureNode(
      'g',
      { class: 'band' },
      figureNode('text', { class: 'name', x: LEFT, y: foot - BAND - 4 }, `${words}: last ${view.write(key, latest)}`),
      figureNode('line', { class: 'hair', x1: LEFT, x2: view.width - RIGHT, y1: foot, y2: foot }),
      figureNode('path', { class: 'curve', d: path }),
      ...points.map(({ day, value }) => figureNode('circle', { class: 'point', cx: x(day), cy: y(value), r: 3 })),
    );
  });
  const dates = [records[days.indexOf(first)], records[days.indexOf(last)]];
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'record-figure',
      viewBox: `0 0 ${view.width} ${height}`,
      width: view.width,
      height,
      role: 'img',
      'aria-label': view.title,
    },
    ...bands,
    figureNode('text', { x: LEFT, y: height - 5 }, dates[0]?.date ?? ''),
    figureNode('text', { x: view.width - RIGHT, y: height - 5, 'text-anchor': 'end' }, dates[1]?.date ?? ''),
  );
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
