import { coarserField, placeInCoarser } from './coarser-field.ts';
import type { SearchGround } from './run-search.ts';

/** Cells of the field on which many searches are made before one is made on the whole. */
const OVERVIEW_CELLS = 60_000;

/** The same search on means of cells, and how many cells wide they are; itself with 1 when it is small. */
export function overviewOf(ground: SearchGround): { readonly ground: SearchGround; readonly times: number } {
  const { field, ends } = ground;
  const times = Math.ceil(Math.sqrt((field.columns * field.rows) / OVERVIEW_CELLS));
  if (times <= 1) return { ground, times: 1 };
  const coarse = coarserField(field, times);
  const coarseEnds = {
    from: placeInCoarser(ends.from, coarse, times),
    to: placeInCoarser(ends.to, coarse, times),
  };
  return { ground: { ...ground, field: coarse, ends: coarseEnds }, times };
}
