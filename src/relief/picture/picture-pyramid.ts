import type { CellWindow } from '../../terrain/grid/grid.ts';
import { BlockCache } from '../levels/block-cache.ts';
import { clearPixels, copyPixels, type Pixels, pixelBytes } from './pixels.ts';

/** A picture, or one overview of it, as windows of pixels. */
export interface PictureBase {
  readonly columns: number;
  readonly rows: number;
  /** Pixels of a window inside it. */
  read(window: CellWindow): Promise<Pixels>;
}

/** A coarser or equal copy of a picture: `scale` pixels of `base` to one of it. */
export interface PictureLevel {
  readonly base: PictureBase;
  readonly scale: number;
  readonly columns: number;
  readonly rows: number;
}

const SIDE = 256;
const BUDGET = 64 * 2 ** 20;
/** A level whose blocks would need more pixels of the file than 2^(8+8+2·4) each is not made. */
const MOST_HALVINGS = 4;

/** A picture at any coarseness: the file's own overviews first, means of 2 × 2 pixels beyond them. */
export class PicturePyramid {
  readonly finest: PictureBase;
  readonly #bases: readonly PictureBase[];
  readonly #cache = new BlockCache<Pixels>(BUDGET, pixelBytes);

  /** `overviews` finest first. */
  constructor(finest: PictureBase, overviews: readonly PictureBase[]) {
    this.finest = finest;
    this.#bases = [finest, ...overviews];
  }

  /** The coarsest level whose pixel is at most `pixels` pixels of the finest raster; null when none is near enough. */
  level(pixels: number): PictureLevel | null {
    if (pixels >= (this.farthest ?? Number.POSITIVE_INFINITY)) return null;
    let base = this.finest;
    for (const candidate of this.#bases) if (this.#factor(candidate) <= pixels) base = candidate;
    const scale = 2 ** Math.max(0, Math.floor(Math.log2(Math.max(1, pixels) / this.#factor(base))));
    return { base, scale, columns: Math.ceil(base.columns / scale), rows: Math.ceil(base.rows / scale) };
  }

  /** So many pixels of the finest raster, and more, are not drawn as one; null where every view is. */
  get farthest(): number | null {
    const coarsest = this.#bases.at(-1) ?? this.finest;
    if (coarsest.columns * coarsest.rows <= SIDE * SIDE * 4 ** MOST_HALVINGS) return null;
    return this.#factor(coarsest) * 2 ** (MOST_HALVINGS + 1);
  }

  pixelsOf(level: PictureLevel): number {
    return this.#factor(level.base) * level.scale;
  }

  async read(level: PictureLevel, window: CellWindow, signal?: AbortSignal): Promise<Pixels> {
    const out = clearPixels(window);
    const right = Math.min(level.columns, window.column + window.columns);
    const bottom = Math.min(level.rows, window.row + window.rows);
    for (let y = Math.floor(Math.max(0, window.row) / SIDE); y * SIDE < bottom; y += 1) {
      for (let x = Math.floor(Math.max(0, window.column) / SIDE); x * SIDE < right; x += 1) {
        signal?.throwIfAborted();
        copyPixels(await this.#block(level.base, level.scale, x, y), out);
      }
    }
    return out;
  }

  #factor(base: PictureBase): number {
    return this.finest.columns / base.columns;
  }

  #block(base: PictureBase, scale: number, x: number, y: number): Promise<Pixels> {
    const window = clipped(base, scale, x, y);
    if (scale === 1) return base.read(window);
    return this.#cache.take(base, `${scale}/${x}/${y}`, async () => {
      const out = clearPixels(window);
      for (const [dx, dy] of QUARTERS) {
        const child = { x: 2 * x + dx, y: 2 * y + dy };
        const finer = clipped(base, scale / 2, child.x, child.y);
        if (finer.columns <= 0 || finer.rows <= 0) continue;
        halvePixels(await this.#block(base, scale / 2, child.x, child.y), out);
      }
      return out;
    });
  }
}

const QUARTERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
] as const;

function clipped(base: PictureBase, scale: number, x: number, y: number): CellWindow {
  const column = x * SIDE;
  const row = y * SIDE;
  return {
    column,
    row,
    columns: Math.min(SIDE, Math.ceil(base.columns / scale) - column),
    rows: Math.min(SIDE, Math.ceil(base.rows / scale) - row),
  };
}

/** Means of 2 × 2 pixels, each weighed by its opacity. */
function halvePixels(fine: Pixels, coarse: Pixels): void {
  for (let row = 0; row < fine.rows; row += 2) {
    for (let column = 0; column < fine.columns; column += 2) {
      const to =
        4 * ((fine.row / 2 + row / 2 - coarse.row) * coarse.columns + fine.column / 2 + column / 2 - coarse.column);
      writeMean(fine, column, row, coarse.rgba, to);
    }
  }
}

function writeMean(fine: Pixels, column: number, row: number, rgba: Uint8ClampedArray, to: number): void {
  let [red, green, blue, opacity, count] = [0, 0, 0, 0, 0];
  for (let y = row; y < Math.min(row + 2, fine.rows); y += 1) {
    for (let x = column; x < Math.min(column + 2, fine.columns); x += 1) {
      const from = 4 * (y * fine.columns + x);
      const weight = fine.rgba[from + 3] ?? 0;
      red += (fine.rgba[from] ?? 0) * weight;
      green += (fine.rgba[from + 1] ?? 0) * weight;
      blue += (fine.rgba[from + 2] ?? 0) * weight;
      opacity += weight;
      count += 1;
    }
  }
  if (opacity === 0) return;
  rgba[to] = red / opacity;
  rgba[to + 1] = green / opacity;
  rgba[to + 2] = blue / opacity;
  rgba[to + 3] = opacity / count;
}
