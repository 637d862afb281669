import { aboutPicture } from '../relief/picture/about-picture.ts';
import type { DecodeJpeg } from '../relief/picture/jpeg-size.ts';
import { openPictureTiff, openPlainPicture, type PictureFile } from '../relief/picture/open-picture.ts';
import { type PictureParts, pictureParts } from '../relief/picture/picture-parts.ts';
import { pictureTile } from '../relief/picture/picture-tile.ts';
import { pictureWindow } from '../relief/picture/picture-window.ts';
import type { Pixels } from '../relief/picture/pixels.ts';
import type { PictureOptions } from '../relief/picture/place-picture.ts';
import type { DecodedPicture } from '../relief/picture/plain-picture.ts';
import { FileRefusal, refusalInFile } from '../terrain/bytes/file-refusal.ts';
import { crsBeside } from '../terrain/georeference/crs-beside.ts';
import type { OpenOutcome } from '../terrain/georeference/open-answers.ts';
import { readWorldFile, writeWorldFile } from '../terrain/georeference/world-file.ts';
import { blobSource } from './blob-source.ts';
import type { Answer, NamedBlob, Question, ToBitmap } from './messages.ts';
import type { Handlers } from './serve.ts';

/** What a browser decodes, or a test in its stead. */
export interface PictureDecoders {
  readonly jpeg: DecodeJpeg;
  /** A whole JPEG or PNG. */
  readonly whole: (file: Blob) => Promise<DecodedPicture>;
  /** Pixels as a JPEG. */
  readonly asJpeg: (pixels: Pixels) => Promise<ArrayBuffer>;
}

/** Answers about one aerial picture: the one this worker opened last. */
export function pictureService(
  toBitmap: ToBitmap,
  decoders: PictureDecoders,
): Pick<Handlers, 'open-picture' | 'picture-tile' | 'take-picture'> {
  let opened: PictureFile | null = null;
  return {
    'open-picture': async (question) => {
      const result = await open(question, decoders);
      opened = result.picture ?? opened;
      return result.answer;
    },
    'take-picture': async (wish, job) => {
      if (!opened) throw new Error('picture: found none, expected one opened before');
      const part = await pictureWindow(opened, wish, job.signal);
      return part && { jpeg: await decoders.asJpeg(part.pixels), world: writeWorldFile(part.affine), crs: part.crs };
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
