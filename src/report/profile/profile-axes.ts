import { UNITS } from '../../units/unit.ts';
import { writeGrouped } from '../../units/write-quantity.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import type { Box } from '../figure/text-room.ts';
import { roundTicks } from '../figure/ticks.ts';
import type { AxisUnit, ProfileScale } from './profile-scale.ts';

/** Room that one tick wants, px. */
const ROOM_UP = 22;
const ROOM_ALONG = 84;
const STAFF_WIDTH = 7;

/**
 * The heights as a levelling staff: blocks filled in turn, one a tick, with a hairline across the plot. The fill of a block
 * follows its height, not its place, so it stays put when the plot is stretched.
 */
export function heightStaff(scale: ProfileScale): FigureNode {
  const { unit, heights, plot } = scale;
  const ticks = roundTicks(
    { from: heights.from / unit.metres, to: heights.to / unit.metres },
    Math.max(2, Math.floor(plot.height / ROOM_UP)),
  );
  const right = plot.left + plot.width;
  const marks = ticks.values.map((value) => {
    const y = scale.y(value * unit.metres);
    return figureNode(
      'g',
      { class: 'tick', 'data-value': value * unit.metres },
      figureNode('line', { class: 'hair', x1: plot.left, x2: right, y1: y, y2: y }),
      figureNode(
        'text',
        { x: plot.left - STAFF_WIDTH - 5, y: y + 4, 'text-anchor': 'end' },
        grouped(value, ticks.digits, unit),
      ),
    );
  });
  return figureNode(
    'g',
    { class: 'staff' },
    ...staffBlocks(scale, ticks.step),
    figureNode('rect', {
      class: 'staff-edge',
      x: plot.left - STAFF_WIDTH,
      y: plot.top,
      width: STAFF_WIDTH,
      height: plot.height,
    }),
    ...marks,
    figureNode(
      'text',
      { class: 'unit', x: plot.left - STAFF_WIDTH - 5, y: plot.top - 8, 'text-anchor': 'end' },
      unit.symbol,
    ),
  );
}

/** The room of the staff with its figures and the unit over them. */
export function staffBox({ plot }: ProfileScale): Box {
  return { left: 0, top: plot.top - 20, width: plot.left - STAFF_WIDTH - 2, height: plot.height + 20 };
}

function staffBlocks(scale: ProfileScale, step: number): FigureNode[] {
  const { unit, heights, plot } = scale;
  const first = Math.floor(heights.from / unit.metres / step);
  const last = Math.ceil(heights.to / unit.metres / step);
  const blocks: FigureNode[] = [];
  for (let index = first; index < last; index += 1) {
    if (Math.abs(index % 2) === 1) continue;
    const bottom = Math.min(plot.top + plot.height, scale.y(index * step * unit.metres));
    const top = Math.max(plot.top, scale.y((index + 1) * step * unit.metres));
    if (bottom <= top) continue;
    blocks.push(
      figureNode('rect', {
        class: 'staff-block',
        x: plot.left - STAFF_WIDTH,
        y: top,
        width: STAFF_WIDTH,
        height: bottom - top,
      }),
    );
  }
  return blocks;
}

/** The distances along the foot of the plot: a taut line with a ring at every tick, and how much heights are stretched. */
export function distanceChain(scale: ProfileScale): FigureNode {
  const { unit, plot } = scale;
  const foot = plot.top + plot.height;
  const ticks = roundTicks(
    { from: 0, to: scale.length / unit.metres },
    Math.max(2, Math.floor(plot.width / ROOM_ALONG)),
  );
  const marks = ticks.values.map((value) => {
    const x = scale.x(value * unit.metres);
    return figureNode(
      'g',
      { class: 'tick', 'data-value': value * unit.metres },
      figureNode('circle', { class: 'ring', cx: x, cy: foot, r: 2.5 }),
      figureNode('text', { x, y: foot + 16, 'text-anchor': 'middle' }, grouped(value, ticks.digits, unit)),
    );
  });
  return figureNode(
    'g',
    { class: 'chain' },
    figureNode('line', { class: 'chain-line', x1: plot.left, x2: plot.left + plot.width, y1: foot, y2: foot }),
    ...marks,
    figureNode(
      'text',
      { class: 'unit', x: plot.left + plot.width, y: foot + 31, 'text-anchor': 'end' },
      `distance, ${unit.symbol} · heights drawn ${stretch(scale.exaggeration)} the distances`,
    ),
  );
}

function stretch(times: number): string {
  if (times >= 9.95) return `${Math.round(times)} ×`;
  return `${times.toFixed(1)} ×`;
}

/** A number of an axis, grouped as those write who read its unit. */
function grouped(value: number, digits: number, unit: AxisUnit): string {
  return writeGrouped(value, digits, unit.symbol === UNITS.foot.label ? 'us' : 'metric');
}
