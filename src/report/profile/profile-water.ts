import { type FigureNode, figureNode, tidy } from '../figure/figure-node.ts';
import { alongGround } from './profile-ground.ts';
import type { ProfileScale } from './profile-scale.ts';
import type { ProfileLeg, ProfileStation } from './profile-view.ts';

/**
 * The pipe of one leg: along the ground, and upright at each end to the level that counts there. Its role shows in its
 * dash as well as in its colour.
 */
export function pipeOf(leg: ProfileLeg, stations: readonly ProfileStation[], scale: ProfileScale): FigureNode {
  const ends = stations.filter(
    (station) => station.at === leg.offset || station.at === leg.offset + leg.ground.horizontal,
  );
  return figureNode(
    'g',
    { class: `pipe ${leg.role} ${leg.emphasis}`, 'data-route': leg.id },
    figureNode('path', {
      class: 'pipe-line',
      d: alongGround(leg, scale) + ends.map((end) => upright(end, scale)).join(''),
    }),
    ...(leg.emphasis === 'alternative' ? rings(leg, scale) : []),
  );
}

const RING = 3.5;

/** Where another plan has the ends of a line; those that are alike lie beneath the symbols of this one. */
function rings({ ground, offset }: ProfileLeg, scale: ProfileScale): FigureNode[] {
  const { at, known } = ground;
  return [0, at.length - 1].flatMap((end) => {
    const [along, height] = [at[end], ground.ground[end]];
    if (along === undefined || height === undefined || known[end] !== 1) return [];
    return [figureNode('circle', { class: 'other-end', cx: scale.x(offset + along), cy: scale.y(height), r: RING })];
  });
}

function upright(station: ProfileStation, scale: ProfileScale): string {
  if (station.ground === null || station.level === null || station.ground === station.level) return '';
  const x = tidy(scale.x(station.at));
  return `M${x} ${tidy(scale.y(station.ground))}L${x} ${tidy(scale.y(station.level))}`;
}

/** The water of one leg: the line to which it would rise in open pipes while running, and its level at rest. */
export function waterOf(leg: ProfileLeg, scale: ProfileScale): FigureNode | null {
  const running = leg.result?.running ?? null;
  const still = leg.result?.still ?? null;
  if (running === null && still === null) return null;
  return figureNode(
    'g',
    { class: 'water', 'data-route': leg.id },
    still === null ? null : stillLine(leg, still, scale),
    running === null ? null : runningLine(leg, running, scale),
  );
}

function stillLine(leg: ProfileLeg, still: number, scale: ProfileScale): FigureNode {
  const y = scale.y(still);
  const x1 = scale.x(leg.offset);
  const x2 = scale.x(leg.offset + leg.ground.horizontal);
  return figureNode('line', { class: 'still', x1, x2, y1: y, y2: y });
}

function runningLine(
  leg: ProfileLeg,
  running: { readonly at: readonly number[]; readonly head: readonly number[] },
  scale: ProfileScale,
): FigureNode {
  const points = running.at.map((at, index) => {
    return `${tidy(scale.x(leg.offset + at))},${tidy(scale.y(running.head[index] ?? 0))}`;
  });
  return figureNode('polyline', { class: 'running', points: points.join(' ') });
}
