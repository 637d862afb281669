import type { ByteSource } from '../../terrain/bytes/byte-source.ts';
import { BlockCache } from '../../terrain/tiff/block-cache.ts';
import { BlockStore } from '../../terrain/tiff/block-store.ts';
import { checkBlocksInside } from '../../terrain/tiff/blocks-inside.ts';
import { readLayout } from '../../terrain/tiff/raster-layout.ts';
import type { TiffImages } from '../../terrain/tiff/tiff-images.ts';
import { MASK_RULE, VoidMask } from '../../terrain/tiff/void-mask.ts';
import { checkBlockSize } from './picture-layout.ts';
import type { Pixels } from './pixels.ts';

/** Which pixels of an image of a size are part of the picture. */
export type PictureMasks = (size: { readonly columns: number; readonly rows: number }) => VoidMask | null;

const BUDGET = 16 * 2 ** 20;

/** The mask images of a file; each belongs to the image of its own size. */
export async function pictureMasks(source: ByteSource, images: TiffImages): Promise<PictureMasks> {
  const cache = new BlockCache(BUDGET);
  const masks: { readonly columns: number; readonly rows: number; readonly mask: VoidMask }[] = [];
  for (const tags of images.masks) {
    const layout = await readLayout(tags);
    checkBlockSize(layout);
    await checkBlocksInside(layout, source.size);
    const { littleEndian } = images;
    const name = `mask ${masks.length}`;
    const store = new BlockStore({ name, source, layout, littleEndian, band: 0, rule: MASK_RULE, cache });
    masks.push({ columns: layout.columns, rows: layout.rows, mask: new VoidMask(store, layout) });
  }
  return ({ columns, rows }) => masks.find((each) => each.columns === columns && each.rows === rows)?.mask ?? null;
}

/** Makes the pixels that a mask leaves out wholly clear. */
export async function applyMask(mask: VoidMask, pixels: Pixels): Promise<void> {
  const kept = await mask.kept(pixels);
  for (let at = 0; at < kept.length; at += 1) if (kept[at] === 0) pixels.rgba[4 * at + 3] = 0;
}
