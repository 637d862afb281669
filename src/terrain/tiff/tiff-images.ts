import { refuse } from '../bytes/file-refusal.ts';
import type { PagedBytes } from './paged-bytes.ts';
import { TagValues } from './tag-values.ts';
import { readDirectories } from './tiff-directory.ts';
import { readTiffHeader } from './tiff-header.ts';
import { TAG } from './tiff-tags.ts';

/** The directories of a file by what they are. */
export interface TiffImages {
  readonly littleEndian: boolean;
  readonly big: boolean;
  /** The full-size image that comes first. */
  readonly main: TagValues;
  /** Reduced copies of an image, and masks of full or reduced size, in the order of the file. */
  readonly reduced: readonly TagValues[];
  readonly masks: readonly TagValues[];
  /** Further full-size images, which the planner does not read. */
  readonly otherPages: number;
}

/** Bits of NewSubfileType. Source: TIFF 6.0, Adobe, 1992, section 8. */
const REDUCED = 1;
const MASK = 4;

export async function readImages(bytes: PagedBytes): Promise<TiffImages> {
  const header = await readTiffHeader(bytes);
  const directories = await readDirectories(bytes, header);
  const main: TagValues[] = [];
  const reduced: TagValues[] = [];
  const masks: TagValues[] = [];
  for (const directory of directories) {
    const tags = new TagValues(bytes, header, directory);
    const kind = await tags.number(TAG.NewSubfileType, 0);
    if ((kind & MASK) !== 0) masks.push(tags);
    else if ((kind & REDUCED) !== 0) reduced.push(tags);
    else main.push(tags);
  }
  const [first] = main;
  if (first === undefined) {
    refuse({ code: 'no-image', where: '', found: 'no full-size image', expected: 'an image in the file' });
  }
  const { littleEndian, big } = header;
  return { littleEndian, big, main: first, reduced, masks, otherPages: main.length - 1 };
}
