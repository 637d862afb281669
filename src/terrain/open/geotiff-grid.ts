import type { Affine, ElevationGrid } from '../grid/grid.ts';
import type { BlockStore } from '../tiff/block-store.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import { StoredGrid } from '../tiff/stored-grid.ts';
import type { VoidMask } from '../tiff/void-mask.ts';
import type { GeoTiffHead } from './geotiff-head.ts';

/** Bytes of a window's cell: a height and whether it is known. */
const WINDOW_CELL_BYTES = 9;

/** One directory of a GeoTIFF as a grid. */
export function gridOf(
  head: GeoTiffHead,
  parts: {
    store: BlockStore;
    layout: RasterLayout;
    mask: VoidMask | null;
    affine: Affine;
    overviews: readonly ElevationGrid[];
    memory: number;
  },
): StoredGrid {
  const { factor, add } = head.meaning.rule;
  const whole = head.layout.kind !== 'float';
  const narrow = factor === 1 && add === 0 && (head.layout.bits < 32 || (!whole && head.layout.bits === 32));
  return new StoredGrid({
    name: head.source.name,
    columns: parts.layout.columns,
    rows: parts.layout.rows,
    affine: parts.affine,
    crs: head.crs.reference,
    overviews: parts.overviews,
    quantum: whole ? Math.abs(factor) : 0,
    store: parts.store,
    rule: head.meaning.rule,
    mask: parts.mask,
    wide: !narrow,
    mostCells: Math.floor(parts.memory / WINDOW_CELL_BYTES),
  });
}
