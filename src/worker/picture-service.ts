import { aboutPicture } from '../relief/picture/about-picture.ts';
import type { DecodeJpeg } from '../relief/picture/jpeg-block.ts';
import { openPictureTiff, type PictureFile } from '../relief/picture/open-picture.ts';
import { pictureTile } from '../relief/picture/picture-tile.ts';
import type { ToBitmap } from './bitmap.ts';
import { blobSource } from './blob-source.ts';
import type { Answer, Question } from './messages.ts';
import type { Handlers } from './serve.ts';

/** Answers about one aerial picture: the one this worker opened last. */
export function pictureService(
  toBitmap: ToBitmap,
  decodeJpeg: DecodeJpeg,
): Pick<Handlers, 'open-picture' | 'picture-tile'> {
  let opened: PictureFile | null = null;
  return {
    'open-picture': async ({ files }) => {
      const result = await open(files, decodeJpeg);
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

async function open(files: Question<'open-picture'>['files'], decodeJpeg: DecodeJpeg): Promise<Opening> {
  const [file] = files;
  if (!file || files.length > 1) return refused('picture-files', '', `${files.length} files`, 'one GeoTIFF');
  const picture = await openPictureTiff(blobSource(file.name, file.blob), decodeJpeg);
  if (!picture.ok) return { answer: { kind: 'refused', problems: picture.problems } };
  const about = aboutPicture(picture.value);
  if (!about) return refused('no-georeferencing', file.name, 'a middle outside its CRS', 'a place in the world');
  return { answer: { kind: 'opened', about }, picture: picture.value };
}

function refused(code: string, path: string, found: string, expected: string): Opening {
  return { answer: { kind: 'refused', problems: [{ code, path, found, expected }] } };
}
