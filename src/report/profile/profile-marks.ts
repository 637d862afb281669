import type { Turning } from '../../evaluation/site/extrema.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { roleSymbol } from '../figure/role-symbol.ts';
import { type Box, fitText, TakenRoom, textWidth } from '../figure/text-room.ts';
import { LEVEL_WORDS } from '../words/role-words.ts';
import { HEAD_ROW, type ProfileScale } from './profile-scale.ts';
import type { ProfileLeg, ProfileStation } from './profile-view.ts';

const FONT = 12;
const SMALL = 11;
const LONGEST_NAME = 150;
const SHORT_NAME = 84;
const SYMBOL = 10;

/**
 * Room for labels among marks. A label lies on nothing; the hairline from a name to its symbol may pass a mark where it
 * must, but never a label.
 */
export class MarkRoom {
  readonly #all: TakenRoom;
  readonly #labels: TakenRoom;

  constructor(inside: Box) {
    this.#all = new TakenRoom(inside);
    this.#labels = new TakenRoom(inside);
  }

  /** A symbol or a wedge. */
  block(mark: Box): void {
    this.#all.block(mark);
  }

  /** The first place for a label that is free of everything; null when none is. */
  take(places: readonly Box[]): Box | null {
    const place = this.#all.take(places);
    if (place !== null) this.#labels.block(place);
    return place;
  }

  /** The first place for a name with its hairline; one that passes no mark, where there is such a place. */
  takeNamed(groups: readonly { readonly label: Box; readonly leader: Box }[]): Box | null {
    const clear = groups.find(({ label, leader }) => this.#all.isFree(label) && this.#all.isFree(leader));
    const found = clear ?? groups.find(({ label, leader }) => this.#all.isFree(label) && this.#labels.isFree(leader));
    if (found === undefined) return null;
    for (const box of [found.label, found.leader]) {
      this.#all.block(box);
      this.#labels.block(box);
    }
    return found.label;
  }
}

/** The points of the plan: symbol at the water or valve level, name and level in the head room, a hairline between the two. */
export function stationMark(
  station: ProfileStation,
  scale: ProfileScale,
  head: { readonly room: MarkRoom; readonly rows: number },
  units: UnitSystem,
): { readonly node: FigureNode; readonly named: boolean } | null {
  const level = station.level ?? station.ground;
  if (level === null) return null;
  const x = scale.x(station.at);
  const y = scale.y(level);
  const stands = station.level === null ? 'ground' : LEVEL_WORDS[station.role];
  const words = `${stands} ${writeQuantity(level, 'height', units)}`;
  const label = stationLabel(wordings(station.name, words), { x, y }, head);
  const node = figureNode(
    'g',
    { class: 'station', 'data-point': station.id },
    figureNode('title', {}, `${station.name}, ${words}`),
    ...label,
    figureNode(
      'g',
      { transform: `translate(${Math.round(x * 100) / 100} ${Math.round(y * 100) / 100})` },
      roleSymbol(station.role),
    ),
  );
  return { node, named: label.length > 0 };
}

/** Name and level; the name alone, and shorter, where there is less room. */
function wordings(name: string, level: string): readonly string[] {
  return [`${fitText(name, FONT, LONGEST_NAME)} ${level}`, fitText(name, FONT, SHORT_NAME)];
}

/** A label in the highest free row of the head room, and the hairline from it to the symbol; neither crosses a label. */
function stationLabel(
  texts: readonly string[],
  symbol: { readonly x: number; readonly y: number },
  { room, rows }: { readonly room: MarkRoom; readonly rows: number },
): FigureNode[] {
  for (const text of texts) {
    const place = room.takeNamed(labelPlaces(textWidth(text, FONT), symbol, rows));
    if (place === null) continue;
    const { x, y } = symbol;
    const foot = place.top + place.height;
    return [
      figureNode('line', { class: 'leader', x1: x, x2: x, y1: foot + 1, y2: Math.max(foot + 1, y - SYMBOL) }),
      figureNode('text', { class: 'station-name', x: place.left, y: foot - 3 }, text),
    ];
  }
  return [];
}

/** Where a label may stand, best first: each with the room of its hairline. */
function labelPlaces(
  width: number,
  { x, y }: { readonly x: number; readonly y: number },
  rows: number,
): readonly { readonly label: Box; readonly leader: Box }[] {
  return Array.from({ length: rows }, (_, row) => row).flatMap((row) => {
    const top = 2 + row * HEAD_ROW;
    const foot = top + HEAD_ROW - 1;
    const leader = { left: x - 1, top: foot + 1, width: 2, height: Math.max(0, y - SYMBOL - foot - 2) };
    return [x - width / 2, x - 4, x - width + 4, x + 2, x - width - 2].map((left) => {
      return { label: { left, top, width, height: HEAD_ROW - 1 }, leader };
    });
  });
}

/** Marks the room that the symbols of the stations take, so that no label covers one. */
export function blockStations(stations: readonly ProfileStation[], scale: ProfileScale, room: MarkRoom): void {
  for (const station of stations) {
    const level = station.level ?? station.ground;
    if (level === null) continue;
    room.block({
      left: scale.x(station.at) - SYMBOL,
      top: scale.y(level) - SYMBOL,
      width: 2 * SYMBOL,
      height: 2 * SYMBOL,
    });
  }
}

/** Where the wedge of a turning has its tip and its base, px. */
function wedgeOf(leg: ProfileLeg, turning: Turning, scale: ProfileScale) {
  const x = scale.x(leg.offset + turning.at);
  const y = scale.y(turning.ground);
  const up = turning.kind === 'summit' ? -1 : 1;
  return { x, y, up, tip: y + up * 5, base: y + up * 12 };
}

const WEDGE = 5;

/** Marks the room of the wedges, so that no label covers one and none lies on a label. */
export function blockTurnings(leg: ProfileLeg, scale: ProfileScale, room: MarkRoom): void {
  for (const turning of leg.result?.turnings ?? []) {
    const { x, tip, base } = wedgeOf(leg, turning, scale);
    room.block({ left: x - WEDGE, top: Math.min(tip, base), width: 2 * WEDGE, height: Math.abs(base - tip) });
  }
}

/** Summits and sags: an open wedge above or a notch below the ground, with its height where there is room. */
export function turningMarks(leg: ProfileLeg, scale: ProfileScale, room: MarkRoom, units: UnitSystem): FigureNode[] {
  const turnings = (leg.result?.turnings ?? []).toSorted((one, other) => prominence(other) - prominence(one));
  return turnings.map((turning) => turningMark(leg, turning, scale, room, units));
}

/** Higher summits and then lower sags are labelled first. */
function prominence(turning: Turning): number {
  return turning.kind === 'summit' ? turning.ground : -turning.ground - 1e6;
}

function turningMark(
  leg: ProfileLeg,
  turning: Turning,
  scale: ProfileScale,
  room: MarkRoom,
  units: UnitSystem,
): FigureNode {
  const { x, y, up, tip, base } = wedgeOf(leg, turning, scale);
  const words = writeQuantity(turning.ground, 'height', units);
  const width = textWidth(words, SMALL);
  const top = up < 0 ? base - 14 : base + 2;
  const place = room.take([
    { left: x - width / 2, top, width, height: 13 },
    { left: x + 7, top: y + up * 9 - 7, width, height: 13 },
    { left: x - 7 - width, top: y + up * 9 - 7, width, height: 13 },
  ]);
  return figureNode(
    'g',
    { class: `turning ${turning.kind}` },
    figureNode('title', {}, `${turning.kind === 'summit' ? 'High point' : 'Low point'}, ${words}`),
    figureNode('path', { d: wedge(x, { tip, base }) }),
    place === null ? null : figureNode('text', { x: place.left, y: place.top + 10 }, words),
  );
}

function wedge(x: number, ends: { readonly tip: number; readonly base: number }): string {
  const places = [x, ends.tip, x - WEDGE, ends.base, x + WEDGE, ends.base].map(
    (value) => Math.round(value * 100) / 100,
  );
  return `M${places[0]} ${places[1]}L${places[2]} ${places[3]}L${places[4]} ${places[5]}Z`;
}
