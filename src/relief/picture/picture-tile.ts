import type { TileAddress } from '../levels/tile-address.ts';
import { type TileWarp, warpedCell, warpTile } from '../levels/tile-warp.ts';
import { type Lattice, warpLattice } from '../levels/warp-lattice.ts';
import type { PictureFile } from './open-picture.ts';
import type { Pixels } from './pixels.ts';

const SURROUND = 2;

/** The picture in a Web Mercator tile, four bytes a pixel; clear beyond the picture. */
export async function pictureTile(
  { placed, pyramid }: PictureFile,
  spec: { readonly tile: TileAddress; readonly size: number },
  signal?: AbortSignal,
): Promise<Uint8ClampedArray<ArrayBuffer>> {
  const out = new Uint8ClampedArray(4 * spec.size * spec.size);
  const warp = warpTile(spec.tile, placed.cellAt);
  if (!warp) return out;
  const step = 1 / spec.size;
  const level = pyramid.level(pixelsPerStep(warp, step));
  if (!level) return out;
  const scale = pyramid.pixelsOf(level);
  const lattice = warpLattice(warp, { first: step / 2, step, side: spec.size }, scale);
  const left = Math.max(0, lattice.left - SURROUND);
  const top = Math.max(0, lattice.top - SURROUND);
  const columns = Math.min(level.columns, lattice.right + SURROUND) - left;
  const rows = Math.min(level.rows, lattice.bottom + SURROUND) - top;
  if (columns <= 0 || rows <= 0) return out;
  const pixels = await pyramid.read(level, { column: left, row: top, columns, rows }, signal);
  paint(out, lattice, pixels, { columns: pyramid.finest.columns / scale, rows: pyramid.finest.rows / scale });
  return out;
}

function pixelsPerStep(warp: TileWarp, step: number): number {
  const here = warpedCell(warp, 0.5, 0.5);
  const east = warpedCell(warp, 0.5 + step, 0.5);
  const south = warpedCell(warp, 0.5, 0.5 + step);
  const area =
    (east.column - here.column) * (south.row - here.row) - (east.row - here.row) * (south.column - here.column);
  return Math.sqrt(Math.abs(area));
}

function paint(
  out: Uint8ClampedArray,
  lattice: Lattice,
  pixels: Pixels,
  size: { readonly columns: number; readonly rows: number },
): void {
  for (let at = 0; at < lattice.columns.length; at += 1) {
    const column = (lattice.columns[at] ?? 0) + lattice.left;
    const row = (lattice.rows[at] ?? 0) + lattice.top;
    if (column < 0 || row < 0 || column >= size.columns || row >= size.rows) continue;
    blend(out, 4 * at, pixels, column - pixels.column, row - pixels.row);
  }
}

/** Bilinear between the middles of four pixels, each weighed by its opacity too. */
function blend(out: Uint8ClampedArray, to: number, { rgba, columns, rows }: Pixels, x: number, y: number): void {
  const left = Math.floor(x - 0.5);
  const top = Math.floor(y - 0.5);
  const s = x - 0.5 - left;
  const t = y - 0.5 - top;
  const x0 = Math.max(0, left);
  const x1 = Math.min(columns - 1, left + 1);
  const upper = Math.max(0, top) * columns;
  const lower = Math.min(rows - 1, top + 1) * columns;
  const corners = [4 * (upper + x0), 4 * (upper + x1), 4 * (lower + x0), 4 * (lower + x1)];
  const shares = [(1 - s) * (1 - t), s * (1 - t), (1 - s) * t, s * t];
  let [red, green, blue, opacity] = [0, 0, 0, 0];
  for (let corner = 0; corner < 4; corner += 1) {
    const from = corners[corner] ?? 0;
    const weight = (shares[corner] ?? 0) * (rgba[from + 3] ?? 0);
    red += (rgba[from] ?? 0) * weight;
    green += (rgba[from + 1] ?? 0) * weight;
    blue += (rgba[from + 2] ?? 0) * weight;
    opacity += weight;
  }
  if (opacity === 0) return;
  out[to] = red / opacity;
  out[to + 1] = green / opacity;
  out[to + 2] = blue / opacity;
  out[to + 3] = opacity;
}
