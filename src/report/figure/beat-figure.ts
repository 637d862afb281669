import type { UnitSystem } from '../../units/kind.ts';
import { UNITS } from '../../units/unit.ts';
import { type FigureChild, type FigureNode, figureNode } from './figure-node.ts';
import { roundTicks } from './ticks.ts';

/** A simulated course of some beats: head over the waste valve's outlet and velocity in the drive pipe, over time. */
export interface CourseOfBeats {
  readonly at: readonly number[];
  readonly head: readonly number[];
  readonly velocity: readonly number[];
  readonly moments: readonly { readonly kind: string; readonly at: number }[];
}

const MOMENTS: Readonly<Record<string, string>> = {
  'waste-valve-opens': 'waste valve opens',
  'waste-valve-shuts': 'waste valve shuts',
  'check-valve-opens': 'check valve opens',
  'check-valve-shuts': 'check valve shuts',
};

const LEFT = 56;
const RIGHT = 8;
const TOP = 20;
const GAP = 30;
const FOOT = 40;
const MOST_TICKS = 4;

/**
 * Head at the pump above, velocity in the drive pipe below, over the same seconds; the moments of the first beat are named with
 * numbers, which a list under the figure spells out, and drawn as lines through both.
 */
export function beatFigure(
  course: CourseOfBeats,
  view: { readonly units: UnitSystem; readonly width: number; readonly height: number; readonly title: string },
): FigureNode {
  const { units, width, height, title } = view;
  const end = course.at.at(-1) ?? 1;
  const x = (at: number) => LEFT + (at / end) * (width - LEFT - RIGHT);
  const each = (height - TOP - GAP - FOOT) / 2;
  const head = panel(course.head, {
    x,
    at: course.at,
    top: TOP,
    height: each,
    unit: units === 'us' ? 'foot' : 'metre',
  });
  const velocity = panel(course.velocity, {
    x,
    at: course.at,
    top: TOP + each + GAP,
    height: each,
    unit: units === 'us' ? 'footPerSecond' : 'metrePerSecond',
  });
  const foot = TOP + 2 * each + GAP;
  const seconds = roundTicks({ from: 0, to: end }, MOST_TICKS + 2).values;
  const marks = together(namedMoments(course), x).map(({ at, numbers }) =>
    figureNode(
      'g',
      { class: 'moment' },
      figureNode('line', { class: 'hair', x1: x(at), x2: x(at), y1: TOP - 4, y2: foot }),
      figureNode('text', { x: x(at), y: TOP - 7, 'text-anchor': 'middle' }, numbers.join(', ')),
    ),
  );
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'beat-figure',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'img',
      'aria-label': title,
    },
    ...marks,
    ...head,
    ...velocity,
    figureNode('text', { class: 'name', x: LEFT, y: TOP + each + 13 }, 'head at the pump'),
    figureNode('text', { class: 'name', x: LEFT, y: foot + 13 }, 'velocity in the drive pipe'),
    ...seconds.map((at) =>
      figureNode('text', { class: 'second', x: x(at), y: foot + 28, 'text-anchor': 'middle' }, `${at} s`),
    ),
  );
}

/** Room that a number needs, px. */
const NUMBER_ROOM = 16;

/** Moments that lie too near each other to be told apart share a place. */
function together(
  moments: readonly { readonly at: number; readonly number: number }[],
  x: (at: number) => number,
): readonly { readonly at: number; readonly numbers: readonly number[] }[] {
  const places: { at: number; numbers: number[] }[] = [];
  for (const { at, number } of moments) {
    const last = places.at(-1);
    if (last !== undefined && x(at) - x(last.at) < NUMBER_ROOM) last.numbers.push(number);
    else places.push({ at, numbers: [number] });
  }
  return places;
}

/** The moments of the first beat, numbered in their order; those that fall together share a number's place. */
export function namedMoments(
  course: CourseOfBeats,
): readonly { readonly at: number; readonly number: number; readonly words: string }[] {
  const seen = new Set<string>();
  const first = course.moments.filter(({ kind }) => !seen.has(kind) && seen.add(kind) && MOMENTS[kind] !== undefined);
  return first.map(({ kind, at }, i) => ({ at, number: i + 1, words: MOMENTS[kind] ?? kind }));
}

function panel(
  values: readonly number[],
  place: {
    readonly x: (at: number) => number;
    readonly at: readonly number[];
    readonly top: number;
    readonly height: number;
    readonly unit: 'metre' | 'foot' | 'metrePerSecond' | 'footPerSecond';
  },
): FigureChild[] {
  const { factor, label } = UNITS[place.unit];
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)];
  const span = most > least ? most - least : 1;
  const y = (value: number) => place.top + place.height - ((value - least) / span) * place.height;
  const path = values.map(
    (value, i) => `${i === 0 ? 'M' : 'L'}${tenth(place.x(place.at[i] as number))} ${tenth(y(value))}`,
  );
  const ticks = roundTicks({ from: least / factor, to: most / factor }, MOST_TICKS).values;
  const [from, to] = [place.x(0), place.x(place.at.at(-1) ?? 0)];
  return [
    ...ticks.map((value) =>
      figureNode(
        'g',
        { class: 'tick' },
        figureNode('line', { class: 'hair', x1: from, x2: to, y1: y(value * factor), y2: y(value * factor) }),
        figureNode('text', { x: from - 5, y: y(value * factor) + 4, 'text-anchor': 'end' }, `${value} ${label}`),
      ),
    ),
    figureNode('path', { class: 'curve', d: path.join('') }),
  ];
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
