import type { TileAddress } from '../../relief/levels/tile-address.ts';
import { isHeard } from '../../worker/fetch-range.ts';
import { TileRefused } from './tile-failure.ts';

/** A tile of 512 pixels a side as PNG without any packing takes 1 MB. */
const MOST_BYTES = 4 * 2 ** 20;
const MOST_SIDE = 1024;
const SILENCE = 12_000;
const OK = 200;

/** The address of one tile; `{-y}` counts rows from the south, as TMS does. */
export function tileAddress(template: string, { z, x, y }: TileAddress): string {
  const values: Readonly<Record<string, number>> = { z, x, y, '-y': 2 ** z - 1 - y };
  return template.replaceAll(/\{(z|x|-?y)\}/g, (_, name: string) => String(values[name]));
}

/** Asks for one tile, without cookies and without word of the page. */
export async function fetchTile(template: string, tile: TileAddress, signal: AbortSignal): Promise<ImageBitmap> {
  const address = tileAddress(template, tile);
  const reply = await ask(address, AbortSignal.any([signal, AbortSignal.timeout(SILENCE)]), signal);
  if (reply.status !== OK) {
    await reply.body?.cancel();
    throw new TileRefused({ kind: 'status', status: reply.status });
  }
  const bitmap = await pictureOf(await bytesOf(reply));
  if (bitmap.width <= MOST_SIDE && bitmap.height <= MOST_SIDE) return bitmap;
  bitmap.close();
  throw new TileRefused({ kind: 'too-large' });
}

async function ask(address: string, limited: AbortSignal, wanted: AbortSignal): Promise<Response> {
  try {
    return await fetch(address, { credentials: 'omit', referrerPolicy: 'no-referrer', signal: limited });
  } catch (error) {
    if (wanted.aborted) throw error;
    throw new TileRefused({ kind: (await isHeard(address, wanted)) ? 'not-shared' : 'silent' });
  }
}

/** The bytes of a reply, as long as they are no more than a tile can have. */
async function bytesOf(reply: Response): Promise<Blob> {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const reader = reply.body?.getReader();
  let filled = 0;
  for (let part = await reader?.read(); part !== undefined && !part.done; part = await reader?.read()) {
    filled += part.value.length;
    if (filled > MOST_BYTES) {
      await reader?.cancel();
      throw new TileRefused({ kind: 'too-large' });
    }
    parts.push(part.value);
  }
  return new Blob(parts);
}

async function pictureOf(bytes: Blob): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(bytes, { premultiplyAlpha: 'none', colorSpaceConversion: 'none' });
  } catch {
    throw new TileRefused({ kind: 'no-picture' });
  }
}
