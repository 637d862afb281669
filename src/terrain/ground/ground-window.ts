import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Terrain, TerrainNote } from '../grid/ground.ts';
import type { PlacedGrid } from '../grid/placed-grid.ts';
import { sampleBilinear } from './bilinear.ts';
import { placeOutside, type ReadWindow, readWindow, windowAround } from './read-window.ts';

export interface WindowWish {
  /** Places that must have a height. */
  readonly around: readonly Position[];
  /** How far beyond the box around the places to read, m. */
  readonly margin: Metres;
  /** Coarser heights are read rather than more cells than these. */
  readonly mostCells: number;
}

export type WindowOutcome =
  | { readonly kind: 'read'; readonly window: ReadWindow }
  /** The first place that has no height in the one grid that is read. */
  | { readonly kind: 'no-height'; readonly at: Position };

/** A terrain made of grids, of which a rectangle of heights can be had. */
export interface GridTerrain extends Terrain {
  /** What is known of it by now: the notes of `about`, and what has made holes in all that was read so far. */
  notes(): readonly TerrainNote[];
  groundWindow(wish: WindowWish, signal?: AbortSignal): Promise<WindowOutcome>;
}

/** Reads a rectangle of heights of the finest grid that has one at every place asked for. */
export async function groundWindow(
  grids: readonly PlacedGrid[],
  wish: WindowWish,
  signal?: AbortSignal,
): Promise<WindowOutcome> {
  let missing = wish.around[0];
  if (!missing) throw new Error('places of a window: found none, expected at least one');
  for (const placed of grids) {
    const wanted = windowAround(placed, wish.around, wish.margin);
    const read = wanted && (await readWindow(placed, wanted, wish.mostCells, signal));
    const without = read && wish.around.find((position) => heightIn(read, position) === null);
    if (read && !without) return { kind: 'read', window: read };
    missing = without ?? placeOutside(placed, wish.around) ?? missing;
  }
  return { kind: 'no-height', at: missing };
}

/** Bilinear height of a window at a position; null where it has none. */
export function heightIn(window: ReadWindow, position: Position): Metres | null {
  const cell = window.cellAt(position);
  if (!cell) return null;
  const track = { column: Float64Array.of(cell.column), row: Float64Array.of(cell.row) };
  const out = { height: new Float64Array(1), known: new Uint8Array(1) };
  sampleBilinear(window.block, window.block, track, { first: 0, last: 0 }, out);
  return out.known[0] === 1 ? (out.height[0] as number) : null;
}
