import type { PictureAbout } from '../../relief/levels/picture-about.ts';
import type { TileAddress } from '../../relief/levels/tile-address.ts';
import { isPictureName } from '../../relief/picture/picture-parts.ts';
import type { PictureWish, TakenPicture } from '../../worker/messages.ts';
import { namedBlob, type Opening, type OpenOptions, opening } from './terrain-client.ts';
import type { PictureTiles } from './tile-service.ts';
import { spawnWorker, WorkerLink } from './worker-link.ts';

/** An aerial picture opened in a worker of its own. */
export interface OpenedPicture extends PictureTiles {
  readonly about: PictureAbout;
  /** The part of it around places as a JPEG. */
  take(wish: PictureWish): Promise<TakenPicture | null>;
  close(): void;
}

/** Opens an aerial picture: one GeoTIFF, or a picture with its world file. */
export async function openPicture(
  files: File | readonly File[],
  options: OpenOptions = {},
): Promise<Opening<OpenedPicture>> {
  const list = files instanceof File ? [files] : files;
  const link = new WorkerLink(
    'open-picture',
    { files: list.map(namedBlob), answers: options.answers ?? {} },
    options.spawn ?? spawnWorker,
  );
  const result = await link.open(options.signal, options.onProgress);
  return opening(result, link, (about) => ({
    about,
    key: link.key,
    pictureTile: (tile: TileAddress, size: number, signal: AbortSignal) =>
      link.ask('picture-tile', { tile, size }, signal),
    take: (wish: PictureWish) => link.ask('take-picture', wish),
    close: () => link.close(),
  }));
}

/**
 * What was brought before together with what comes now, where one of them is the picture and the other its companions; else
 * what comes now alone.
 */
export function withOtherHalf<File extends { readonly name: string }>(
  before: readonly File[],
  now: readonly File[],
): readonly File[] {
  const hasPicture = (files: readonly File[]) => files.some(({ name }) => isPictureName(name));
  if (before.length === 0 || (hasPicture(before) && hasPicture(now))) return now;
  const names = new Set(now.map(({ name }) => name));
  return [...before.filter(({ name }) => !names.has(name)), ...now];
}
