import { addProtocol, type RequestParameters, removeProtocol } from 'maplibre-gl';
import type { UnitSystem } from '../../plan/model/plan.ts';
import type { TileAddress } from '../../relief/levels/tile-address.ts';
import type { ReliefColours } from '../../relief/tiles/relief-palette.ts';
import type { SlopeColours } from '../../relief/tiles/slope-palette.ts';
import type { ReachColours } from '../../siting/reach/reach-tile.ts';
import type { ContourTile, PictureTiles, ReachTiles, ReliefTiles, WebTiles } from '../client/tile-service.ts';
import { WorkerLost } from '../client/worker-calls.ts';

/** Whom the map asks at the moment. */
export interface TileSources {
  relief: ReliefTiles | null;
  picture: PictureTiles | null;
  web: WebTiles | null;
  reach: ReachTiles | null;
  /** Told with every contour tile: its zoom, the step between its lines in shown units, and what is left out there. */
  onContours: (zoom: number, contours: Omit<ContourTile, 'data'>) => void;
}

let maps = 0;

/** The tile addresses of one map: its own scheme, so that two maps never answer each other. */
export class TileProtocol {
  readonly #scheme: string;
  readonly #sources: TileSources;

  constructor(sources: TileSources) {
    maps += 1;
    this.#scheme = `rill${maps}`;
    this.#sources = sources;
    addProtocol(this.#scheme, (request, stop) => this.#loadAgainOnce(request, stop.signal));
  }

  reliefUrl(key: string, colours: ReliefColours, size: number): string {
    return `${this.#scheme}://relief/${key}/${colours}/${size}/{z}/{x}/{y}`;
  }

  slopeUrl(key: string, colours: SlopeColours, size: number): string {
    return `${this.#scheme}://slope/${key}/${colours}/${size}/{z}/{x}/{y}`;
  }

  contourUrl(key: string, units: UnitSystem): string {
    return `${this.#scheme}://contour/${key}/${units}/0/{z}/{x}/{y}`;
  }

  pictureUrl(key: string, size: number): string {
    return `${this.#scheme}://picture/${key}/-/${size}/{z}/{x}/{y}`;
  }

  reachUrl(key: string, colours: ReachColours, size: number): string {
    return `${this.#scheme}://reach/${key}/${colours}/${size}/{z}/{x}/{y}`;
  }

  webUrl(key: string): string {
    return `${this.#scheme}://web/${key}/-/0/{z}/{x}/{y}`;
  }

  close(): void {
    removeProtocol(this.#scheme);
  }

  /** A worker that was lost is started anew by the next question, so a tile it took along is asked for once more. */
  async #loadAgainOnce(request: RequestParameters, signal: AbortSignal) {
    try {
      return await this.#load(request, signal);
    } catch (error) {
      if (error instanceof WorkerLost && !signal.aborted) return this.#load(request, signal);
      throw error;
    }
  }

  async #load({ url }: RequestParameters, signal: AbortSignal): Promise<{ data: ImageBitmap | ArrayBuffer }> {
    const asked = readAddress(url.slice(`${this.#scheme}://`.length));
    const { relief, picture, web, reach } = this.#sources;
    if (asked.kind === 'web' && web?.key === asked.key) return { data: await web.webTile(asked.tile, signal) };
    if (asked.kind === 'reach' && reach?.key === asked.key) {
      const spec = { tile: asked.tile, colours: asked.variant as ReachColours, size: asked.size };
      return { data: await reach.reachTile(spec, signal) };
    }
    if (asked.kind === 'picture' && picture?.key === asked.key) {
      return { data: await picture.pictureTile(asked.tile, asked.size, signal) };
    }
    if (relief?.key !== asked.key) throw new DOMException('these tiles are out of date', 'AbortError');
    if (asked.kind === 'relief') {
      const look = { colours: asked.variant as ReliefColours, size: asked.size };
      return { data: await relief.reliefTile(asked.tile, look, signal) };
    }
    if (asked.kind === 'slope') {
      const look = { colours: asked.variant as SlopeColours, size: asked.size };
      return { data: await relief.slopeTile(asked.tile, look, signal) };
    }
    const { data, interval, tooFar } = await relief.contourTile(asked.tile, asked.variant as UnitSystem, signal);
    this.#sources.onContours(asked.tile.z, { interval, tooFar });
    return { data };
  }
}

/** The parts of an address that this file wrote: kind, key, variant, size, zoom, column, row. */
function readAddress(address: string) {
  const [kind = '', key = '', variant = '', size, z, x, y] = address.split('/');
  const tile: TileAddress = { z: Number(z), x: Number(x), y: Number(y) };
  return { kind, key, variant, size: Number(size), tile };
}
