import { FOOT_M } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { textWidth } from '../figure/text-room.ts';
import { roundStep, roundTicks } from '../figure/ticks.ts';
import { type MapFrame, wrapped } from './plan-map-frame.ts';

/** Room between two meridians and between two parallels, px. */
const SIZE = 11;
const ROOM = { across: 120, up: 110 } as const;

/** Meridians and parallels at round steps of a degree, each with its coordinate at the foot or the left. */
export function degreeGrid(frame: MapFrame): FigureNode {
  const { plot, bounds } = frame;
  const right = plot.left + plot.width;
  const foot = plot.top + plot.height;
  const across = roundTicks({ from: bounds.west, to: bounds.east }, Math.max(2, Math.floor(plot.width / ROOM.across)));
  const up = roundTicks({ from: bounds.south, to: bounds.north }, Math.max(2, Math.floor(plot.height / ROOM.up)));
  const meridians = across.values.map((lon) => {
    const x = frame.x(lon);
    return figureNode(
      'g',
      { class: 'tick', 'data-lon': String(wrapped(lon)) },
      figureNode('line', { class: 'hair', x1: x, x2: x, y1: plot.top, y2: foot + 4 }),
      meridianWords({ x, y: foot + 15 }, degreeWords(wrapped(lon), across.digits, 'EW'), frame.width),
    );
  });
  const parallels = up.values.map((lat) => {
    const y = frame.y(lat);
    return figureNode(
      'g',
      { class: 'tick', 'data-lat': String(lat) },
      figureNode('line', { class: 'hair', x1: plot.left - 4, x2: right, y1: y, y2: y }),
      figureNode(
        'text',
        {
          transform: `rotate(-90 ${plot.left - 9} ${Math.round(y * 100) / 100})`,
          x: plot.left - 9,
          y,
          'text-anchor': 'middle',
        },
        degreeWords(lat, up.digits, 'NS'),
      ),
    );
  });
  return figureNode('g', { class: 'degrees' }, ...meridians, ...parallels);
}

/** A coordinate at the foot, moved in where it would run over the edge of the figure. */
function meridianWords(spot: { readonly x: number; readonly y: number }, words: string, width: number): FigureNode {
  const half = textWidth(words, SIZE) / 2;
  const x = Math.min(width - half, Math.max(half, spot.x));
  return figureNode('text', { x, y: spot.y, 'text-anchor': 'middle' }, words);
}

function degreeWords(degrees: number, digits: number, letters: 'EW' | 'NS'): string {
  return `${Math.abs(degrees).toFixed(digits)}° ${letters[degrees < 0 ? 1 : 0]}`;
}

/** An arrow to true north in the upper right corner of the plot. */
export function northArrow({ plot }: MapFrame): FigureNode {
  const x = plot.left + plot.width - 20;
  const y = plot.top + 12;
  return figureNode(
    'g',
    { class: 'north' },
    figureNode('title', {}, 'True north is up'),
    figureNode('rect', { class: 'north-ground', x: x - 13, y: y - 6, width: 26, height: 50 }),
    figureNode('path', { class: 'north-half', d: `M${x} ${y}V${y + 26}L${x - 7} ${y + 26}Z` }),
    figureNode('path', { class: 'north-edge', d: `M${x} ${y}L${x + 7} ${y + 26}H${x - 7}Z` }),
    figureNode('text', { x, y: y + 39, 'text-anchor': 'middle' }, 'N'),
  );
}

/** A round length below the plot, in the shown unit, in two halves so that it can be measured off. */
export function scaleBar(frame: MapFrame, units: UnitSystem): FigureNode {
  const { plot, perMetre } = frame;
  const unit = units === 'us' ? { metres: FOOT_M, symbol: 'ft' } : { metres: 1, symbol: 'm' };
  const most = (plot.width * BAR_SHARE) / perMetre / unit.metres;
  const length = [most, most / 2, most / 4, most / 8].map(roundStep).find((step) => step <= most) ?? most;
  const px = length * unit.metres * perMetre;
  const y = plot.top + plot.height + 30;
  const text = (share: number, words: string, anchor: string) =>
    figureNode('text', { x: plot.left + px * share, y: y + 18, 'text-anchor': anchor }, words);
  return figureNode(
    'g',
    { class: 'scale-bar', 'data-metres': String(Number((length * unit.metres).toPrecision(6))) },
    figureNode('rect', { class: 'bar-full', x: plot.left, y, width: px / 2, height: 5 }),
    figureNode('rect', { class: 'bar-edge', x: plot.left, y, width: px, height: 5 }),
    text(0, '0', 'start'),
    text(1, `${Number(length.toPrecision(3))} ${unit.symbol}`, 'middle'),
  );
}

/** How much of the plot's width the bar may take. */
const BAR_SHARE = 0.28;
