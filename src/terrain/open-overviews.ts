import type { BlockStore } from './block-store.ts';
import { gridOf } from './geotiff-grid.ts';
import type { GeoTiffHead } from './geotiff-head.ts';
import type { Affine, ElevationGrid } from './grid.ts';
import { type RasterLayout, readLayout } from './raster-layout.ts';
import { checkSupport } from './sample-support.ts';

/** The reduced copies inside a file as grids of their own over the same area, finest first. */
export async function openOverviews(
  head: GeoTiffHead,
  storeOf: (name: string, layout: RasterLayout) => BlockStore,
  memory: number,
): Promise<readonly ElevationGrid[]> {
  const layouts: RasterLayout[] = [];
  for (const tags of head.images.reduced) {
    const layout = await readLayout(tags);
    checkSupport(layout);
    if (isCopyOf(layout, head.layout)) layouts.push(layout);
  }
  layouts.sort((p, q) => q.columns - p.columns);
  return layouts.map((layout, i) => {
    const affine = stretched(head.place.affine, head.layout.columns / layout.columns, head.layout.rows / layout.rows);
    return gridOf(head, { store: storeOf(`overview ${i}`, layout), layout, affine, overviews: [], memory });
  });
}

/** A reduced copy holds the same kind of numbers; other small images, such as previews, are left alone. */
function isCopyOf(layout: RasterLayout, full: RasterLayout): boolean {
  const { bits, kind, samples } = layout;
  if (bits !== full.bits || kind !== full.kind || samples !== full.samples) return false;
  return layout.columns < full.columns || layout.rows < full.rows;
}

/** The affine of larger cells over the same area. */
function stretched({ a, b, c, d, e, f }: Affine, across: number, down: number): Affine {
  return { a: a * across, b: b * down, c, d: d * across, e: e * down, f };
}
