import type { Plan, PlanPoint, PlanRoute } from '../../plan/model/plan.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { roleSymbol } from '../figure/role-symbol.ts';
import { type Box, fitText, TakenRoom, textWidth } from '../figure/text-room.ts';
import type { MapFrame } from './plan-map-frame.ts';
import { type Spot, spotsOf } from './plan-map-lines.ts';

const ALPHABET = 26;
const FIRST = 'a'.codePointAt(0) ?? 0;

/** The letter of a route on the map by its place in the plan: a, b … z, aa, ab … */
export function letterOf(index: number): string {
  const last = String.fromCodePoint(FIRST + (index % ALPHABET));
  return index < ALPHABET ? last : letterOf(Math.floor(index / ALPHABET) - 1) + last;
}

const SIZE = 12;
const LINE = 15;
const SYMBOL = 11;
/** A name is cut to this width; the whole of it stands in the list of points. */
const MOST_WIDTH = 170;
/** Where that finds no room. */
const SHORT_WIDTH = 90;
/** A name further off than this gets a line to its symbol, px. */
const FAR_OFF = 30;
/** Spacing of the boxes that keep labels off a line, px. */
const ALONG = 8;
/** How far from the middle a route's letter may slide, as shares of its length. */
const LETTER_PLACES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8] as const;

/** A line shorter than this would vanish under its letter, px. */
const SHORT_LINE = 70;
const OFF_LINE = 15;

/** Symbols, numbers and names of the points and letters of the routes, placed so that none lies on another. */
export class MapLabels {
  readonly #frame: MapFrame;
  readonly #plan: Plan;
  readonly #byName: boolean;
  /** One room minds the lines too, the other only labels and symbols: for where the first is full. */
  readonly #clear: TakenRoom;
  readonly #crowded: TakenRoom;

  constructor(frame: MapFrame, plan: Plan, byName = false) {
    this.#frame = frame;
    this.#byName = byName;
    this.#plan = plan;
    this.#clear = new TakenRoom(frame.plot);
    this.#crowded = new TakenRoom(frame.plot);
    const { plot } = frame;
    this.#block({ left: plot.left + plot.width - 36, top: plot.top, width: 36, height: 58 });
    for (const point of plan.points) this.#block(around(this.#spot(point), SYMBOL));
    for (const route of plan.routes) {
      for (const spot of along(spotsOf(route, frame))) this.#clear.block(around(spot, 3));
    }
  }

  points(): FigureNode[] {
    return this.#plan.points.map((point, index) => this.#point(point, index));
  }

  routes(): FigureNode[] {
    return this.#plan.routes.flatMap((route, index) => this.#letter(route, letterOf(index)) ?? []);
  }

  #spot({ position }: PlanPoint): Spot {
    return { x: this.#frame.x(position.lon), y: this.#frame.y(position.lat) };
  }

  #block(box: Box): void {
    this.#clear.block(box);
    this.#crowded.block(box);
  }

  /** The first wording with a place free of everything, else the first that touches only lines. */
  #place(spot: Spot, wordings: readonly string[]): { readonly words: string; readonly box: Box } | null {
    for (const room of [this.#clear, this.#crowded]) {
      for (const words of wordings) {
        const box = room.take(placesAround(spot, textWidth(words, SIZE)));
        if (box === null) continue;
        this.#block(box);
        return { words, box };
      }
    }
    return null;
  }

  #point(point: PlanPoint, index: number): FigureNode {
    const { x, y } = this.#spot(point);
    const aside = point.role === 'tank' && point.standing === 'set-aside';
    return figureNode(
      'g',
      { class: `point ${point.role}${aside ? ' aside' : ''}`, 'data-id': point.id },
      figureNode('title', {}, point.name),
      figureNode('g', { transform: `translate(${tenth(x)} ${tenth(y)})` }, roleSymbol(point.role)),
      ...this.#name({ x, y }, this.#wordings(point.name, index + 1)),
    );
  }

  /** The name, whole and then shorter; with its number in a map that has a list beside it. */
  #wordings(name: string, number: number): readonly string[] {
    const names = [MOST_WIDTH, SHORT_WIDTH].map((width) => fitText(name, SIZE, width));
    return this.#byName ? names : [...names.map((each) => `${number} ${each}`), String(number)];
  }

  /** The name of a point, with a line to its symbol where it had to go further off. */
  #name(spot: Spot, wordings: readonly string[]): FigureNode[] {
    const placed = this.#place(spot, wordings);
    if (placed === null) return [];
    const { words, box } = placed;
    const name = figureNode('text', { class: 'point-name', x: box.left + 2, y: box.top + LINE - 4 }, words);
    const near = nearest(box, spot);
    const off = Math.hypot(near.x - spot.x, near.y - spot.y);
    if (off <= FAR_OFF) return [name];
    const from = between(spot, near, SYMBOL / off);
    const line = { class: 'name-leader', x1: tenth(from.x), y1: tenth(from.y), x2: tenth(near.x), y2: tenth(near.y) };
    return [figureNode('line', line), name];
  }

  #letter(route: PlanRoute, letter: string): FigureNode | null {
    const spots = spotsOf(route, this.#frame);
    const width = textWidth(letter, SIZE) + 8;
    const boxes = (at: readonly Spot[]) =>
      at.map(({ x, y }) => ({ left: x - width / 2, top: y - LINE / 2, width, height: LINE }));
    const taken = this.#clear.take(boxes(besideLine(spots))) ?? this.#crowded.take(boxes(onLine(spots)));
    if (taken === null) return null;
    this.#block(taken);
    return figureNode(
      'g',
      { class: 'letter' },
      figureNode('rect', { x: taken.left, y: taken.top, width, height: LINE, rx: 7 }),
      figureNode('text', { x: taken.left + width / 2, y: taken.top + LINE - 4, 'text-anchor': 'middle' }, letter),
    );
  }
}

function onLine(spots: readonly Spot[]): Spot[] {
  return LETTER_PLACES.map((share) => spotAt(spots, share));
}

/** Places off the middle of a line that is too short to be seen under its letter; none for a longer one. */
function besideLine(spots: readonly Spot[]): Spot[] {
  const [from, middle, to] = [spotAt(spots, 0), spotAt(spots, 0.5), spotAt(spots, 1)];
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length >= SHORT_LINE || length === 0) return [];
  const off = { x: (OFF_LINE * (to.y - from.y)) / length, y: (-OFF_LINE * (to.x - from.x)) / length };
  return [1, -1].map((side) => ({ x: middle.x + side * off.x, y: middle.y + side * off.y }));
}

function around({ x, y }: Spot, half: number): Box {
  return { left: x - half, top: y - half, width: 2 * half, height: 2 * half };
}

/** Places for a name beside a symbol, near ones first: right, left, above, below, then the corners. */
function placesAround({ x, y }: Spot, text: number): Box[] {
  const width = text + 4;
  return GAPS.flatMap((gap) => {
    const right = x + SYMBOL + gap;
    const left = x - SYMBOL - gap - width;
    const above = y - SYMBOL - LINE - gap + 1;
    const below = y + SYMBOL + gap - 1;
    const places: readonly (readonly [number, number])[] = [
      [right, y - LINE / 2],
      [left, y - LINE / 2],
      [x - width / 2, above],
      [x - width / 2, below],
      ...[above + 6, below - 6].flatMap((top) => [[right - 8, top] as const, [left + 8, top] as const]),
      ...[above, below].flatMap((top) => [[x - 8, top] as const, [x + 8 - width, top] as const]),
    ];
    return places.map(([l, top]) => ({ left: l, top, width, height: LINE }));
  });
}

/** How far off a symbol its name may stand, px. */
const GAPS = [2, 9, 16, 28, 44, 64] as const;

/** The place of a box that lies nearest to a spot. */
function nearest({ left, top, width, height }: Box, { x, y }: Spot): Spot {
  return { x: Math.min(left + width, Math.max(left, x)), y: Math.min(top + height, Math.max(top, y)) };
}

/** Places along a line, every few pixels. */
function along(spots: readonly Spot[]): Spot[] {
  return spots.slice(1).flatMap((to, i) => {
    const from = spots[i] ?? to;
    const steps = Math.min(1000, Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / ALONG)));
    return Array.from({ length: steps + 1 }, (_, k) => between(from, to, k / steps));
  });
}

function between(from: Spot, to: Spot, share: number): Spot {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

/** The place at a share of a line's length. */
function spotAt(spots: readonly Spot[], share: number): Spot {
  const lengths = spots.slice(1).map((to, i) => Math.hypot(to.x - (spots[i]?.x ?? to.x), to.y - (spots[i]?.y ?? to.y)));
  let left = lengths.reduce((sum, length) => sum + length, 0) * share;
  for (const [i, length] of lengths.entries()) {
    const [from, to] = [spots[i], spots[i + 1]];
    if (from !== undefined && to !== undefined && left <= length)
      return between(from, to, length > 0 ? left / length : 0);
    left -= length;
  }
  return spots.at(-1) ?? { x: 0, y: 0 };
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
