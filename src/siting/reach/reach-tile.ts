import type { Position } from '../../geodesy/position.ts';
import { DEGREE } from '../../geodesy/wgs84.ts';
import { WAY_KIND } from './reach-map.ts';
import { type ReachScene, readingAt } from './reach-view.ts';

export type ReachColours = 'light' | 'dark';

export interface ReachTileSpec {
  /** Zoom, column and row of a Web Mercator tile. */
  readonly tile: { readonly z: number; readonly x: number; readonly y: number };
  readonly colours: ReachColours;
  /** Side of the image, pixels. */
  readonly size: number;
}

type Rgb = readonly [number, number, number];

/**
 * Colours of what arrives, from little to much: each step darker than the one before on a light map and brighter on a dark one,
 * so that their order is read in grey and by colour-blind eyes too.
 */
export const REACH_PALETTES: Readonly<Record<ReachColours, readonly Rgb[]>> = {
  light: [
    [214, 232, 239],
    [168, 210, 224],
    [112, 180, 205],
    [58, 143, 183],
    [25, 100, 152],
    [9, 56, 108],
  ],
  dark: [
    [24, 58, 92],
    [27, 88, 128],
    [40, 121, 158],
    [72, 157, 183],
    [124, 194, 208],
    [190, 228, 233],
  ],
};

/** Lines of the need and patterns of the ways, over the colours. */
const INK: Readonly<Record<ReachColours, Rgb>> = { light: [20, 24, 28], dark: [250, 250, 245] };

/** How much of a class's colour covers the ground. */
export const REACH_COVER = 0.72;
const PATTERN_COVER = 0.55;
const OPAQUE = 255;

/** Pixels between two strokes or dots of a pattern. */
const PERIOD = 10;
/** Nodes a side between which the place of a pixel is taken as straight. */
const NODES = 16;

/** What arrives, in a tile's pixels, four bytes each, not premultiplied; clear where nothing does. */
export function reachTile(scene: ReachScene, { tile, colours, size }: ReachTileSpec): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * size * size);
  const cells = cellsUnder(scene, tile, size);
  if (!cells) return pixels;
  const levels = new Int8Array(size * size).fill(-1);
  const met = new Uint8Array(size * size);
  const kinds = new Uint8Array(size * size);
  for (let at = 0; at < cells.length; at++) {
    const cell = cells[at] as number;
    const reading = cell < 0 ? null : readingAt(scene, cell);
    if (!reading) continue;
    levels[at] = reading.level;
    kinds[at] = reading.kind;
    met[at] = reading.needMet === 'holds' ? 2 : reading.needMet === 'measure' ? 1 : 0;
  }
  const palette = REACH_PALETTES[colours];
  for (let y = 0, at = 0; y < size; y++) {
    for (let x = 0; x < size; x++, at++) {
      const level = levels[at] as number;
      if (level < 0) continue;
      put(pixels, at, palette[Math.min(level, palette.length - 1)] as Rgb, REACH_COVER);
      if (isPattern(kinds[at] as number, x, y)) put(pixels, at, INK[colours], PATTERN_COVER);
      const edge = needEdge(met, at, x, y, size);
      if (edge === 2 || (edge === 1 && (x + y) % PERIOD < PERIOD / 2)) put(pixels, at, INK[colours], 1);
    }
  }
  return pixels;
}

function put(pixels: Uint8ClampedArray, at: number, colour: Rgb, cover: number): void {
  pixels.set(colour, 4 * at);
  pixels[4 * at + 3] = OPAQUE * cover;
}

/** Dots where the way has sags, strokes where it passes a summit: told without colour. */
function isPattern(kind: number, x: number, y: number): boolean {
  if (kind === WAY_KIND.sags) return x % PERIOD < 2 && y % PERIOD < 2;
  return kind === WAY_KIND.summit && (x + y) % PERIOD < 2;
}

/** Whether a pixel lies on the line within which the need is met for sure (2) or may be met (1). */
function needEdge(met: Uint8Array, at: number, x: number, y: number, size: number): number {
  const here = met[at] as number;
  if (here === 0) return 0;
  let lowest = here;
  for (let d = 1; d <= EDGE_PIXELS; d++) {
    if (x + d < size) lowest = Math.min(lowest, met[at + d] as number);
    if (x - d >= 0) lowest = Math.min(lowest, met[at - d] as number);
    if (y + d < size) lowest = Math.min(lowest, met[at + d * size] as number);
    if (y - d >= 0) lowest = Math.min(lowest, met[at - d * size] as number);
  }
  return lowest < here ? here : 0;
}

const EDGE_PIXELS = 2;

/** The cell under each pixel's middle, −1 where none is; null where the tile lies off the map. */
function cellsUnder({ site }: ReachScene, tile: ReachTileSpec['tile'], size: number): Int32Array | null {
  const { columns, rows } = site.ground;
  const nodes = Array.from({ length: (NODES + 1) ** 2 }, (_, k) =>
    site.placeAt(placeIn(tile, (k % (NODES + 1)) / NODES, Math.floor(k / (NODES + 1)) / NODES)),
  );
  if (nodes.some((node) => node === null)) return null;
  const step = size / NODES;
  const cells = new Int32Array(size * size).fill(-1);
  let found = false;
  for (let y = 0, at = 0; y < size; y++) {
    const v = (y + 0.5) / step;
    const j = Math.min(NODES - 1, Math.floor(v));
    for (let x = 0; x < size; x++, at++) {
      const u = (x + 0.5) / step;
      const i = Math.min(NODES - 1, Math.floor(u));
      const [a, b, c, d] = [0, 1, NODES + 1, NODES + 2].map((off) => nodes[j * (NODES + 1) + i + off]);
      if (!a || !b || !c || !d) continue;
      const [s, t] = [u - i, v - j];
      const mix = (p: number, q: number, r: number, w: number) =>
        (p * (1 - s) + q * s) * (1 - t) + (r * (1 - s) + w * s) * t;
      const column = Math.round(mix(a.column, b.column, c.column, d.column));
      const row = Math.round(mix(a.row, b.row, c.row, d.row));
      if (column < 0 || row < 0 || column >= columns || row >= rows) continue;
      cells[at] = row * columns + column;
      found = true;
    }
  }
  return found ? cells : null;
}

/** A place in a tile, shares from its north-west corner. Web Mercator, closed form. */
function placeIn({ z, x, y }: ReachTileSpec['tile'], u: number, v: number): Position {
  const side = 2 ** z;
  return {
    lon: ((x + u) / side) * 360 - 180,
    lat: Math.atan(Math.sinh(Math.PI * (1 - (2 * (y + v)) / side))) / DEGREE,
  };
}
