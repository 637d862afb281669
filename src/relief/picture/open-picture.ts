import { projectionOf } from '../../geodesy/projection.ts';
import { checkAffine } from '../../terrain/affine-check.ts';
import { checkBlocksInside } from '../../terrain/blocks-inside.ts';
import type { ByteSource } from '../../terrain/byte-source.ts';
import { readAffine } from '../../terrain/file-affine.ts';
import { crsFromKeys } from '../../terrain/file-crs.ts';
import { FileRefusal, refusalInFile } from '../../terrain/file-refusal.ts';
import { readGeoKeys } from '../../terrain/geo-keys.ts';
import { PagedBytes } from '../../terrain/paged-bytes.ts';
import { type GridFrame, type PlacedGrid, placedGrid } from '../../terrain/placed-grid.ts';
import type { TagValues } from '../../terrain/tag-values.ts';
import { readImages } from '../../terrain/tiff-images.ts';
import type { Outcome } from '../../units/outcome.ts';
import { BlockCache } from '../block-cache.ts';
import type { DecodeJpeg } from './jpeg-block.ts';
import { readPictureLayout } from './picture-layout.ts';
import { pictureMasks } from './picture-masks.ts';
import { PicturePyramid } from './picture-pyramid.ts';
import { PictureRaster } from './picture-raster.ts';
import { type Pixels, pixelBytes } from './pixels.ts';

/** An aerial picture and where it lies. */
export interface PictureFile {
  readonly placed: PlacedGrid<GridFrame>;
  readonly pyramid: PicturePyramid;
}

const BUDGET = 96 * 2 ** 20;

/** Opens a georeferenced TIFF of colours; what cannot be shown is a problem by name. */
export async function openPictureTiff(source: ByteSource, decodeJpeg: DecodeJpeg): Promise<Outcome<PictureFile>> {
  try {
    return await openImages(source, decodeJpeg);
  } catch (error) {
    if (error instanceof FileRefusal) return { ok: false, problems: [refusalInFile(source.name, error).problem] };
    const found = error instanceof Error ? error.message : String(error);
    const problem = { code: 'unreadable', path: source.name, found, expected: 'a picture that can be read' };
    return { ok: false, problems: [problem] };
  }
}

async function openImages(source: ByteSource, decodeJpeg: DecodeJpeg): Promise<Outcome<PictureFile>> {
  const images = await readImages(new PagedBytes(source));
  const cache = new BlockCache<Pixels>(BUDGET, pixelBytes);
  const masks = await pictureMasks(source, images);
  const raster = async (tags: TagValues) => {
    const layout = await readPictureLayout(tags);
    await checkBlocksInside(layout.raster, source.size);
    return new PictureRaster({ source, layout, cache, decodeJpeg, mask: masks(layout.raster) });
  };
  const finest = await raster(images.main);
  const keys = await readGeoKeys(images.main);
  const crs = crsFromKeys(keys);
  const { affine } = await readAffine(images.main, keys);
  const { columns, rows } = finest;
  checkAffine(affine, { columns, rows }, crs.geographic);
  const projection = await projectionOf(crs.reference);
  if (!projection.ok) {
    return { ok: false, problems: projection.problems.map((problem) => ({ ...problem, path: source.name })) };
  }
  const overviews = await Promise.all(images.reduced.map(raster));
  overviews.sort((one, other) => other.columns - one.columns);
  const placed = placedGrid({ name: source.name, columns, rows, affine }, projection.value);
  return { ok: true, value: { placed, pyramid: new PicturePyramid(finest, overviews) } };
}
