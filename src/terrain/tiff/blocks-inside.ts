import { refuse } from '../bytes/file-refusal.ts';
import type { RasterLayout } from './raster-layout.ts';

/** Entries of the block lists that are looked at in one piece. */
const PIECE = 65_536;
/** How many places spread over longer lists are looked at instead of all. */
const SPREAD = 256;

/**
 * Refuses a raster with a block beyond the end of the file, before any cell is read: a download that broke off is told when
 * it is opened. Very long lists are looked at in places spread over them; each block is checked again when it is read.
 */
export async function checkBlocksInside(layout: RasterLayout, fileBytes: number): Promise<void> {
  const { count } = layout.offsets;
  if (count <= PIECE) {
    const [offsets, counts] = await Promise.all([layout.offsets.run(0, count), layout.counts.run(0, count)]);
    for (let i = 0; i < count; i++) checkBlock(layout, fileBytes, { index: i, offset: offsets[i], length: counts[i] });
    return;
  }
  for (let k = 0; k <= SPREAD; k++) {
    const index = Math.floor((k * (count - 1)) / SPREAD);
    const [offset, length] = await Promise.all([layout.offsets.at(index), layout.counts.at(index)]);
    checkBlock(layout, fileBytes, { index, offset, length });
  }
}

function checkBlock(
  layout: RasterLayout,
  fileBytes: number,
  { index, offset = 0, length = 0 }: { index: number; offset: number | undefined; length: number | undefined },
): void {
  // A block of no bytes is one that the file leaves out.
  if (length === 0 || (offset > 0 && offset + length <= fileBytes)) return;
  refuse({
    code: 'outside-file',
    where: `${layout.tiled ? 'tile' : 'strip'} ${index}`,
    found: `${length} bytes at ${offset}`,
    expected: `a place inside the file's ${fileBytes} bytes; it may have been cut off`,
  });
}
