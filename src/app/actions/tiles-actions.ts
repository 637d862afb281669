import { computed } from '@preact/signals';
import { changeSettings } from '../../plan/edits/edit-settings.ts';
import { TILE_ADDRESS } from '../../plan/file/fields.ts';
import type { TileAddress } from '../../relief/levels/tile-address.ts';
import type { Problem } from '../../units/outcome.ts';
import { isHeard } from '../../worker/fetch-range.ts';
import { failureSentence, hostOf, isTold, TileRefused } from '../client/tile-failure.ts';
import type { WebTiles } from '../client/tile-service.ts';
import { typedAddresses } from '../client/typed-addresses.ts';
import { desk } from '../state/alternatives.ts';
import type { MapViewProps } from '../state/map-view-props.ts';
import { plan } from '../state/store.ts';
import { shownAddress, switchedOn, tilesCame } from '../state/tiles-state.ts';
import { edit } from './edit-actions.ts';

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
async function fetchTile(template: string, tile: TileAddress, signal: AbortSignal): Promise<ImageBitmap> {
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

/** Switches the tiles of the plan at hand on or off; until then nothing is asked. */
export function switchTiles(on: boolean): void {
  const address = plan.value.mapTiles?.address;
  tilesCame.value = { some: false, failure: null };
  switchedOn.value = on && address !== undefined ? { desk: desk.value.id, address } : null;
}

/** Takes the address into the plan, or away when nothing is typed. Another address is off until it is switched on. */
export function typeTilesAddress(text: string): readonly Problem[] {
  const typed = text.trim();
  const known = plan.value.mapTiles;
  if (typed === '') return edit((p) => changeSettings(p, { mapTiles: null }));
  if (typed.length > 2000 || !TILE_ADDRESS.test(typed)) {
    const expected = 'https://, a server, and a path with {z}, {x} and {y} (or {-y}), without spaces and quotes';
    return [{ code: 'map-tiles', path: '', found: typed.slice(0, 80), expected }];
  }
  return edit((p) => changeSettings(p, { mapTiles: { address: typed, attribution: known?.attribution ?? '' } }));
}

export function typeTilesAttribution(attribution: string): readonly Problem[] {
  return edit((p) => changeSettings(p, { mapTiles: p.mapTiles === null ? null : { ...p.mapTiles, attribution } }));
}

/** What keeps the page from asking at the plan's address, such as an address in the clear. */
export const tilesProblems = computed<readonly Problem[]>(() => {
  const address = plan.value.mapTiles?.address;
  return address === undefined ? [] : typedAddresses(address, location.origin).problems;
});

let keys = 0;

export const webTiles = computed<WebTiles | null>(() => {
  const address = shownAddress.value;
  if (address === null) return null;
  keys += 1;
  return { key: String(keys), webTile: (tile, signal) => tileFrom(address, tile, signal) };
});

async function tileFrom(address: string, ...[tile, signal]: Parameters<WebTiles['webTile']>): Promise<ImageBitmap> {
  try {
    const bitmap = await fetchTile(address, tile, signal);
    if (shownAddress.value === address && !tilesCame.value.some) tilesCame.value = { some: true, failure: null };
    return bitmap;
  } catch (error) {
    if (error instanceof TileRefused && shownAddress.value === address) {
      tilesCame.value = { ...tilesCame.value, failure: error.failure };
    }
    throw error;
  }
}

/** Why there are no tiles, in one sentence; null while there are, or while none were asked for. */
export const tilesFailure = computed<string | null>(() => {
  const came = tilesCame.value;
  const address = shownAddress.value;
  if (address === null || came.failure === null || !isTold(came)) return null;
  return failureSentence(came.failure, hostOf(address));
});

const attribution = computed(() => plan.value.mapTiles?.attribution ?? '');

export const webTilesNote = computed<MapViewProps['webTilesNote']>(() =>
  shownAddress.value === null ? null : { attribution: attribution.value, failure: tilesFailure.value },
);
