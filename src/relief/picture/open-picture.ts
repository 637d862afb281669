import type { ByteSource } from '../../terrain/bytes/byte-source.ts';
import { FileRefusal, refusalInFile, refuse } from '../../terrain/bytes/file-refusal.ts';
import { readAffine } from '../../terrain/georeference/file-affine.ts';
import { crsFromKeys, statesCrs } from '../../terrain/georeference/file-crs.ts';
import { type GeoKeys, readGeoKeys } from '../../terrain/georeference/geo-keys.ts';
import { FileQuestion, type OpenOutcome } from '../../terrain/georeference/open-answers.ts';
import type { Affine } from '../../terrain/grid/grid.ts';
import type { GridFrame, PlacedGrid } from '../../terrain/grid/placed-grid.ts';
import { checkBlocksInside } from '../../terrain/tiff/blocks-inside.ts';
import { PagedBytes } from '../../terrain/tiff/paged-bytes.ts';
import type { TagValues } from '../../terrain/tiff/tag-values.ts';
import { readImages } from '../../terrain/tiff/tiff-images.ts';
import { BlockCache } from '../levels/block-cache.ts';
import type { DecodeJpeg } from './jpeg-size.ts';
import { readPictureLayout } from './picture-layout.ts';
import { pictureMasks } from './picture-masks.ts';
import { PicturePyramid } from './picture-pyramid.ts';
import { PictureRaster } from './picture-raster.ts';
import { type Pixels, pixelBytes } from './pixels.ts';
import { type PictureOptions, placePicture } from './place-picture.ts';
import { type DecodePicture, plainPicture } from './plain-picture.ts';

/** An aerial picture and where it lies. */
export interface PictureFile {
  readonly placed: PlacedGrid<GridFrame>;
  readonly pyramid: PicturePyramid;
}

const BUDGET = 96 * 2 ** 20;
/** A JPEG tells its size behind colour profiles and camera data, which together seldom take so much. */
const HEAD_BYTES = 2 ** 20;

/** Opens a TIFF of colours; what cannot be shown is a problem by name. */
export function openPictureTiff(
  source: ByteSource,
  decodeJpeg: DecodeJpeg,
  options: PictureOptions = {},
): Promise<OpenOutcome<PictureFile>> {
  return outcomeOf(source.name, () => openImages(source, decodeJpeg, options));
}

/** Opens a JPEG or PNG that a world file puts into the world. */
export function openPlainPicture(
  source: ByteSource,
  decode: DecodePicture,
  options: PictureOptions & { readonly affine: Affine },
): Promise<OpenOutcome<PictureFile>> {
  return outcomeOf(source.name, async () => {
    const [head = new Uint8Array(0)] = await source.read([{ offset: 0, length: Math.min(HEAD_BYTES, source.size) }]);
    const base = await plainPicture(head, decode);
    const { columns, rows } = base;
    const grid = { name: source.name, columns, rows, affine: options.affine };
    const placed = await placePicture(grid, options.crs ?? null, options.answeredCrs);
    return { placed, pyramid: new PicturePyramid(base, []) };
  });
}

async function outcomeOf(name: string, open: () => Promise<PictureFile>): Promise<OpenOutcome<PictureFile>> {
  try {
    return { kind: 'opened', ok: true, value: await open() };
  } catch (error) {
    if (error instanceof FileQuestion) return { kind: 'question', ok: false, question: error.question, problems: [] };
    const problem =
      error instanceof FileRefusal
        ? refusalInFile(name, error).problem
        : {
            code: 'unreadable',
            path: name,
            found: error instanceof Error ? error.message : String(error),
            expected: 'a picture that can be read',
          };
    return { kind: 'refused', ok: false, problems: [problem] };
  }
}

async function openImages(source: ByteSource, decodeJpeg: DecodeJpeg, options: PictureOptions): Promise<PictureFile> {
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
  const affine = await affineOf(source.name, images.main, keys, options);
  const { columns, rows } = finest;
  const crs = statesCrs(keys) ? (await crsFromKeys(keys)).reference : (options.crs ?? null);
  const placed = await placePicture({ name: source.name, columns, rows, affine }, crs, options.answeredCrs);
  const overviews = await Promise.all(images.reduced.map(raster));
  overviews.sort((one, other) => other.columns - one.columns);
  return { placed, pyramid: new PicturePyramid(finest, overviews) };
}

/** The file's own place comes before that of the world file beside it, as GDAL has it. */
async function affineOf(name: string, tags: TagValues, keys: GeoKeys, options: PictureOptions): Promise<Affine> {
  try {
    return (await readAffine(tags, keys)).affine;
  } catch (error) {
    if (!(error instanceof FileRefusal) || error.problem.code !== 'no-georeferencing') throw error;
    if (options.affine !== undefined) return options.affine;
    const stem = name.replace(/\.[^.]*$/, '');
    const expected = `a place in the file, or its world file ${stem}.tfw`;
    return refuse({ code: 'picture-half', where: '', found: error.problem.found, expected });
  }
}
