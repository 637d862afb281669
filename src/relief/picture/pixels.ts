import type { CellWindow } from '../../terrain/grid/grid.ts';

/** Pixels of a window, four bytes each (red, green, blue, opacity), not premultiplied, row by row from the top. */
export interface Pixels extends CellWindow {
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}

export function clearPixels(window: CellWindow): Pixels {
  return { ...window, rgba: new Uint8ClampedArray(4 * window.columns * window.rows) };
}

export function pixelBytes(block: Pixels): number {
  return block.rgba.byteLength;
}

/** Copies what two windows share. */
export function copyPixels(from: Pixels, to: Pixels): void {
  const left = Math.max(from.column, to.column);
  const right = Math.min(from.column + from.columns, to.column + to.columns);
  const top = Math.max(from.row, to.row);
  const bottom = Math.min(from.row + from.rows, to.row + to.rows);
  if (left >= right) return;
  for (let row = top; row < bottom; row += 1) {
    const start = 4 * ((row - from.row) * from.columns + left - from.column);
    const target = 4 * ((row - to.row) * to.columns + left - to.column);
    to.rgba.set(from.rgba.subarray(start, start + 4 * (right - left)), target);
  }
}
