import type { Position } from '../../geodesy/position.ts';
import type { Affine } from '../../terrain/grid/grid.ts';
import { cellOnGround, cellSize } from '../../terrain/grid/placed-grid.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PictureFile } from './open-picture.ts';
import type { Pixels } from './pixels.ts';

/** A window of a picture at one of its levels, and where it lies. */
export interface PictureWindow {
  readonly pixels: Pixels;
  readonly affine: Affine;
  /** EPSG code of its coordinates. */
  readonly crs: number;
}

/** The finest window of a picture around places that keeps to a number of pixels; null where it has none there, or no EPSG code. */
export async function pictureWindow(
  { placed, pyramid }: PictureFile,
  wish: { readonly around: readonly Position[]; readonly margin: Metres; readonly mostPixels: number },
  signal?: AbortSignal,
): Promise<PictureWindow | null> {
  const { code } = placed.projection;
  const box = boxAround(placed, wish);
  if (code === null || box === null) return null;
  const area = (box.right - box.left) * (box.bottom - box.top);
  // Levels go by halves: the coarsest that a pixel of this size allows may still be twice too fine each way.
  for (let pixels = Math.max(1, Math.sqrt(area / wish.mostPixels)); ; pixels *= 2) {
    const level = pyramid.level(pixels);
    if (!level) return null;
    const scale = pyramid.pixelsOf(level);
    const column = Math.floor(box.left / scale);
    const row = Math.floor(box.top / scale);
    const columns = Math.min(level.columns, Math.ceil(box.right / scale)) - column;
    const rows = Math.min(level.rows, Math.ceil(box.bottom / scale)) - row;
    if (columns <= 0 || rows <= 0) return null;
    if (columns * rows > wish.mostPixels) continue;
    const { a, b, c, d, e, f } = placed.grid.affine;
    return {
      pixels: await pyramid.read(level, { column, row, columns, rows }, signal),
      affine: {
        a: a * scale,
        b: b * scale,
        c: c + a * column * scale + b * row * scale,
        d: d * scale,
        e: e * scale,
        f: f + d * column * scale + e * row * scale,
      },
      crs: code,
    };
  }
}

/** The pixels of the finest level around places, cut at the edges of the picture; null where nothing is left. */
function boxAround(
  placed: PictureFile['placed'],
  wish: { readonly around: readonly Position[]; readonly margin: Metres },
) {
  const cells = wish.around.flatMap((position) => placed.cellAt(position) ?? []);
  const [first] = cells;
  const onGround = first && cellOnGround(placed, first);
  if (!onGround) return null;
  const { width, height } = cellSize(onGround);
  const columns = cells.map(({ column }) => column);
  const rows = cells.map(({ row }) => row);
  const left = Math.max(0, Math.min(...columns) - wish.margin / width);
  const right = Math.min(placed.grid.columns, Math.max(...columns) + wish.margin / width);
  const top = Math.max(0, Math.min(...rows) - wish.margin / height);
  const bottom = Math.min(placed.grid.rows, Math.max(...rows) + wish.margin / height);
  return right > left && bottom > top ? { left, right, top, bottom } : null;
}
