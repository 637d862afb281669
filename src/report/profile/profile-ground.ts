import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { type FigureNode, figureNode, tidy } from '../figure/figure-node.ts';
import { type Box, textWidth } from '../figure/text-room.ts';
import type { ProfileScale } from './profile-scale.ts';
import type { ProfileLeg } from './profile-view.ts';

/** A run of neighbouring samples that all have a height. */
interface KnownRun {
  readonly first: number;
  readonly last: number;
}

/** Pixels of one column of the plot within which samples are thinned to their lowest and highest. */
const COLUMN = 1;

/** The ground of one leg: the earth below it, its uncertainty band, its line, and hatched stretches without heights. */
export function groundOf(leg: ProfileLeg, scale: ProfileScale, key: string): FigureNode {
  const runs = knownRuns(leg.ground);
  return figureNode(
    'g',
    { class: 'ground', 'data-route': leg.id },
    ...runs.map((run) => figureNode('path', { class: 'earth', d: earthPath(leg, run, scale) })),
    ...(leg.spread === null
      ? []
      : runs.map((run) => figureNode('path', { class: 'band', d: bandPath(leg, run, scale) }))),
    ...voidsOf(leg, scale, key),
    ...runs.map((run) => figureNode('path', { class: 'ground-line', d: linePath(leg, run, scale) })),
  );
}

/** The pattern that marks stretches without heights. */
export function voidHatch(key: string): FigureNode {
  return figureNode(
    'pattern',
    { id: `${key}-void`, width: 8, height: 8, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
    figureNode('line', { class: 'hatch', x1: 0, y1: 0, x2: 0, y2: 8 }),
  );
}

const VOID_WORDS = 'no heights';
const VOID_SIZE = 11;

/** From where to where each stretch without heights reaches, px. */
function voidSpans(leg: ProfileLeg, scale: ProfileScale): { left: number; right: number; roomy: boolean }[] {
  const { at } = leg.ground;
  return leg.ground.voids.map((span) => {
    const left = scale.x(leg.offset + valueAt(at, Math.max(0, span.first - 1)));
    const right = scale.x(leg.offset + valueAt(at, Math.min(at.length - 1, span.last + 1)));
    return { left, right, roomy: right - left > textWidth(VOID_WORDS, VOID_SIZE) + 8 };
  });
}

/** The room that the words over stretches without heights take. */
export function voidWordBoxes(leg: ProfileLeg, scale: ProfileScale): Box[] {
  const width = textWidth(VOID_WORDS, VOID_SIZE);
  const top = scale.plot.top + scale.plot.height - 8 - VOID_SIZE;
  return voidSpans(leg, scale)
    .filter(({ roomy }) => roomy)
    .map(({ left, right }) => ({ left: (left + right - width) / 2, top, width, height: VOID_SIZE + 3 }));
}

function voidsOf(leg: ProfileLeg, scale: ProfileScale, key: string): FigureNode[] {
  return voidSpans(leg, scale).map(({ left, right, roomy }) => {
    return figureNode(
      'g',
      { class: 'void' },
      figureNode('rect', {
        x: left,
        y: scale.plot.top,
        width: Math.max(1, right - left),
        height: scale.plot.height,
        fill: `url(#${key}-void)`,
      }),
      roomy
        ? figureNode(
            'text',
            { x: (left + right) / 2, y: scale.plot.top + scale.plot.height - 8, 'text-anchor': 'middle' },
            VOID_WORDS,
          )
        : null,
    );
  });
}

/** The path of a pipe over the known stretches of its ground: along it, or below it where it is dug in. */
export function alongGround(leg: ProfileLeg, scale: ProfileScale): string {
  return knownRuns(leg.ground)
    .map((run) => `M${points(leg, thinned(leg, run, scale), scale, { dug: leg.dug })}`)
    .join('');
}

function knownRuns(ground: GroundLine): KnownRun[] {
  const runs: KnownRun[] = [];
  let first = -1;
  for (let sample = 0; sample <= ground.at.length; sample += 1) {
    const known = sample < ground.at.length && ground.known[sample] === 1;
    if (known && first < 0) first = sample;
    if (!known && first >= 0) {
      runs.push({ first, last: sample - 1 });
      first = -1;
    }
  }
  return runs;
}

function linePath(leg: ProfileLeg, run: KnownRun, scale: ProfileScale): string {
  return `M${points(leg, thinned(leg, run, scale), scale, {})}`;
}

function earthPath(leg: ProfileLeg, run: KnownRun, scale: ProfileScale): string {
  const foot = tidy(scale.plot.top + scale.plot.height);
  const from = tidy(scale.x(leg.offset + valueAt(leg.ground.at, run.first)));
  const to = tidy(scale.x(leg.offset + valueAt(leg.ground.at, run.last)));
  return `M${from} ${foot}L${points(leg, thinned(leg, run, scale), scale, {})}L${to} ${foot}Z`;
}

function bandPath(leg: ProfileLeg, run: KnownRun, scale: ProfileScale): string {
  const samples = thinned(leg, run, scale);
  return `M${points(leg, samples, scale, { side: 1 })}L${points(leg, samples.toReversed(), scale, { side: -1 })}Z`;
}

interface Off {
  /** The upper (+1) or lower (−1) edge of the band. */
  readonly side?: -1 | 0 | 1;
  /** Below the ground, m. */
  readonly dug?: Metres;
}

/** Points of a path: the ground, an edge of its band, or a depth below it. */
function points(leg: ProfileLeg, samples: readonly number[], scale: ProfileScale, { side = 0, dug = 0 }: Off): string {
  return samples
    .map((sample) => {
      const height = valueAt(leg.ground.ground, sample) - dug + (side === 0 ? 0 : side * (leg.spread?.[sample] ?? 0));
      return `${tidy(scale.x(leg.offset + valueAt(leg.ground.at, sample)))} ${tidy(scale.y(height))}`;
    })
    .join('L');
}

/** Samples worth drawing: of each pixel column the first, the lowest, the highest and the last. */
function thinned(leg: ProfileLeg, run: KnownRun, scale: ProfileScale): number[] {
  const kept: number[] = [];
  let start = run.first;
  for (let sample = run.first; sample <= run.last; sample += 1) {
    const next = sample + 1;
    if (next <= run.last && column(leg, next, scale) === column(leg, start, scale)) continue;
    kept.push(...extremes(leg.ground, start, sample));
    start = next;
  }
  return kept;
}

function column(leg: ProfileLeg, sample: number, scale: ProfileScale): number {
  return Math.floor(scale.x(leg.offset + valueAt(leg.ground.at, sample)) / COLUMN);
}

function extremes(ground: GroundLine, first: number, last: number): number[] {
  let lowest = first;
  let highest = first;
  for (let sample = first; sample <= last; sample += 1) {
    if (valueAt(ground.ground, sample) < valueAt(ground.ground, lowest)) lowest = sample;
    if (valueAt(ground.ground, sample) > valueAt(ground.ground, highest)) highest = sample;
  }
  return [...new Set([first, lowest, highest, last])].sort((one, other) => one - other);
}
