import { aboutPicture } from '../relief/picture/about-picture.ts';
import { crsBeside } from '../relief/picture/crs-beside.ts';
import type { DecodeJpeg } from '../relief/picture/jpeg-block.ts';
import { exifSpans } from '../relief/picture/jpeg-exif.ts';
import { openPictureTiff, openPlainPicture, type PictureFile } from '../relief/picture/open-picture.ts';
import { type PictureParts, pictureParts } from '../relief/picture/picture-parts.ts';
import { pictureTile } from '../relief/picture/picture-tile.ts';
import type { PictureOptions } from '../relief/picture/place-picture.ts';
import type { DecodedPicture } from '../relief/picture/plain-picture.ts';
import { readWorldFile } from '../relief/picture/world-file.ts';
import { FileRefusal, refusalInFile } from '../terrain/bytes/file-refusal.ts';
import type { OpenOutcome } from '../terrain/georeference/open-answers.ts';
import type { CellWindow } from '../terrain/grid/grid.ts';
import { blobSource } from './blob-source.ts';
import type { Answer, NamedBlob, Question } from './messages.ts';
import { type ToBitmap, toBitmap } from './messages.ts';
import { type Handlers, type PageEnd, serve } from './serve.ts';
import { terrainService } from './terrain-service.ts';

/** What a browser decodes, or a test in its stead. */
interface PictureDecoders {
  readonly jpeg: DecodeJpeg;
  /** A whole JPEG or PNG. */
  readonly whole: (file: Blob) => Promise<DecodedPicture>;
}

/** Answers about one aerial picture: the one this worker opened last. */
export function pictureService(
  toBitmap: ToBitmap,
  decoders: PictureDecoders,
): Pick<Handlers, 'open-picture' | 'picture-tile'> {
  let opened: PictureFile | null = null;
  return {
    'open-picture': async (question) => {
      const result = await open(question, decoders);
      opened = result.picture ?? opened;
      return result.answer;
    },
    'picture-tile': async ({ tile, size }, job) => {
      if (!opened) throw new Error('picture: found none, expected one opened before');
      return toBitmap(await pictureTile(opened, { tile, size }, job.signal), size);
    },
  };
}

interface Opening {
  readonly answer: Answer<'open-picture'>;
  readonly picture?: PictureFile;
}

async function open({ files, answers }: Question<'open-picture'>, decoders: PictureDecoders): Promise<Opening> {
  try {
    const parts = pictureParts(files);
    const outcome = await openParts(parts, answers[parts.picture.name]?.crs, decoders);
    if (outcome.kind === 'question') return { answer: { kind: 'question', questions: [outcome.question] } };
    if (outcome.kind === 'refused') return { answer: outcome };
    const about = aboutPicture(outcome.value);
    if (about) return { answer: { kind: 'opened', about }, picture: outcome.value };
    return refused('no-georeferencing', parts.picture.name, 'a middle outside its CRS', 'a place in the world');
  } catch (error) {
    if (error instanceof FileRefusal) return { answer: { kind: 'refused', problems: [error.problem] } };
    throw error;
  }
}

async function openParts(
  parts: PictureParts<NamedBlob>,
  answeredCrs: number | undefined,
  decoders: PictureDecoders,
): Promise<OpenOutcome<PictureFile>> {
  const { picture, kind, world, crs } = parts;
  const affine = world && (await inFile(world, readWorldFile));
  const stated = crs && (await inFile(crs, (text) => crsBeside(crs.name, text)));
  const options: PictureOptions = {
    ...(affine ? { affine } : {}),
    ...(stated && answeredCrs === undefined ? { crs: stated } : {}),
    ...(answeredCrs === undefined ? {} : { answeredCrs }),
  };
  const source = blobSource(picture.name, picture.blob);
  if (kind === 'tiff' || !affine) return openPictureTiff(source, decoders.jpeg, options);
  return openPlainPicture(source, () => decoders.whole(picture.blob), { ...options, affine });
}

/** Companions are short texts; of a longer one the start is read. */
const MOST_COMPANION = 2_000_000;

async function inFile<T>({ name, blob }: NamedBlob, read: (text: string) => T): Promise<T> {
  try {
    return read(await blob.slice(0, MOST_COMPANION).text());
  } catch (error) {
    throw error instanceof FileRefusal ? refusalInFile(name, error) : error;
  }
}

function refused(code: string, path: string, found: string, expected: string): Opening {
  return { answer: { kind: 'refused', problems: [{ code, path, found, expected }] } };
}

/** Camera data lies at the front; what lies further back is no business of the decoder's either. */
const HEAD_BYTES = 2 ** 20;

/** Decodes a whole JPEG or PNG with the browser's own decoder, as it is stored. */
async function decodePicture(file: Blob): Promise<DecodedPicture> {
  const bitmap = await createImageBitmap(await withoutExif(file), {
    colorSpaceConversion: 'none',
    premultiplyAlpha: 'none',
  });
  const { width: columns, height: rows } = bitmap;
  return { columns, rows, read: (window) => Promise.resolve({ ...window, rgba: pixelsOf(bitmap, window) }) };
}

function pixelsOf(bitmap: ImageBitmap, { column, row, columns, rows }: CellWindow): Uint8ClampedArray<ArrayBuffer> {
  const context = new OffscreenCanvas(columns, rows).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.drawImage(bitmap, -column, -row);
  return new Uint8ClampedArray(context.getImageData(0, 0, columns, rows).data);
}

async function withoutExif(file: Blob): Promise<Blob> {
  const spans = exifSpans(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (spans.length === 0) return file;
  const kept = [0, ...spans.map(({ to }) => to)].map((from, at) => file.slice(from, spans[at]?.from ?? file.size));
  return new Blob(kept);
}

/** The browser's own JPEG decoder. */
const decodeJpeg: DecodeJpeg = async (file) => {
  const bitmap = await createImageBitmap(new Blob([file], { type: 'image/jpeg' }), { colorSpaceConversion: 'none' });
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return { columns: width, rows: height, rgba: new Uint8ClampedArray(context.getImageData(0, 0, width, height).data) };
};

declare const self: PageEnd;

serve(self, { ...terrainService(toBitmap), ...pictureService(toBitmap, { jpeg: decodeJpeg, whole: decodePicture }) });
