import { refuse } from '../bytes/file-refusal.ts';
import { isReadable } from '../codec/block-codec.ts';
import type { BlockStore } from '../tiff/block-store.ts';
import { checkBlocksInside } from '../tiff/blocks-inside.ts';
import type { HeightRule } from '../tiff/heights-from-samples.ts';
import { type RasterLayout, readLayout } from '../tiff/raster-layout.ts';
import { MASK_RULE, VoidMask } from '../tiff/void-mask.ts';
import { opacityBand } from './band-choice.ts';
import type { GeoTiffHead } from './geotiff-head.ts';

/** Makes the block store of one directory of the file. */
export type StoreMaker = (name: string, form: { layout: RasterLayout; band: number; rule: HeightRule }) => BlockStore;

/** The masks of a file, by the size of the image that they belong to. */
export interface FileMasks {
  of(layout: RasterLayout): VoidMask | null;
}

/** Opens the mask images of a file, or takes its opacity band for a mask where there are none. */
export async function openMasks(head: GeoTiffHead, stores: StoreMaker): Promise<FileMasks> {
  const masks: { layout: RasterLayout; mask: VoidMask }[] = [];
  for (const tags of head.images.masks) {
    const layout = await readLayout(tags);
    checkMask(layout);
    await checkBlocksInside(layout, head.source.size);
    const store = stores(`mask ${masks.length}`, { layout, band: 0, rule: MASK_RULE });
    masks.push({ layout, mask: new VoidMask(store, layout) });
  }
  const opacity = await opacityBand(head.images.main, head.layout);
  return {
    of: (layout) => {
      const found = masks.find((mask) => mask.layout.columns === layout.columns && mask.layout.rows === layout.rows);
      if (found !== undefined || opacity === null) return found?.mask ?? null;
      const store = stores(`opacity ${layout.columns}`, { layout, band: opacity, rule: MASK_RULE });
      return new VoidMask(store, layout);
    },
  };
}

const MASK_BITS = [1, 8];
const MOST_MASK_BYTES = 64 * 1024 * 1024;

export function checkMask(layout: RasterLayout): void {
  const { bits, samples, compression, predictor, blockColumns, blockRows } = layout;
  const plain = predictor === 1 && MASK_BITS.includes(bits) && isReadable(compression);
  if (samples === 1 && plain && (blockColumns * blockRows * bits) / 8 <= MOST_MASK_BYTES) return;
  refuse({
    code: 'mask',
    where: 'mask image',
    found: `${samples} samples of ${bits} bits, compression ${compression}`,
    expected: 'a mask of 1 or 8 bits a cell that the reader can unpack',
  });
}
