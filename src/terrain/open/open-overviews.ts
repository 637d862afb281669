import type { Affine, ElevationGrid } from '../grid/grid.ts';
import { checkBlocksInside } from '../tiff/blocks-inside.ts';
import { type RasterLayout, readLayout } from '../tiff/raster-layout.ts';
import { checkSupport } from '../tiff/sample-support.ts';
import { gridOf } from './geotiff-grid.ts';
import type { GeoTiffHead } from './geotiff-head.ts';
import type { FileMasks, StoreMaker } from './open-masks.ts';

/** The reduced copies inside a file as grids of their own over the same area, finest first. */
export async function openOverviews(
  head: GeoTiffHead,
  form: { stores: StoreMaker; masks: FileMasks; memory: number },
): Promise<readonly ElevationGrid[]> {
  const layouts: RasterLayout[] = [];
  for (const tags of head.images.reduced) {
    const layout = await readLayout(tags);
    if (!isCopyOf(layout, head.layout)) continue;
    checkSupport(layout, head.images.littleEndian);
    await checkBlocksInside(layout, head.source.size);
    layouts.push(layout);
  }
  layouts.sort((p, q) => q.columns - p.columns);
  const { band, meaning } = head;
  return layouts.map((layout, i) => {
    const affine = stretched(head.place.affine, head.layout.columns / layout.columns, head.layout.rows / layout.rows);
    const store = form.stores(`overview ${i}`, { layout, band, rule: meaning.rule });
    const mask = form.masks.of(layout);
    return gridOf(head, { store, layout, mask, affine, overviews: [], memory: form.memory });
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
