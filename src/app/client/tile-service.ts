import type { UnitSystem } from '../../plan/model/plan.ts';
import type { TileAddress } from '../../relief/levels/tile-address.ts';
import type { TooFar } from '../../relief/tiles/contour-tile.ts';
import type { ReliefColours } from '../../relief/tiles/relief-palette.ts';
import type { SlopeColours } from '../../relief/tiles/slope-palette.ts';
import type { ReachTileSpec } from '../../siting/reach/reach-tile.ts';

export interface ReliefLook {
  readonly colours: ReliefColours;
  /** Side of the image, pixels. */
  readonly size: number;
}

export interface SlopeLook {
  readonly colours: SlopeColours;
  /** Side of the image, pixels. */
  readonly size: number;
}

/** Contour lines and voids of one tile as a vector tile, the step between the lines in shown units, and what is left out. */
export interface ContourTile {
  readonly data: ArrayBuffer;
  readonly interval: number;
  readonly tooFar: TooFar;
}

/** Where the map gets its pictures of the ground. `key` changes whenever tiles drawn before are out of date. */
export interface ReliefTiles {
  readonly key: string;
  reliefTile(tile: TileAddress, look: ReliefLook, signal: AbortSignal): Promise<ImageBitmap>;
  slopeTile(tile: TileAddress, look: SlopeLook, signal: AbortSignal): Promise<ImageBitmap>;
  contourTile(tile: TileAddress, units: UnitSystem, signal: AbortSignal): Promise<ContourTile>;
}

/** Where the map gets what would arrive. `key` changes with every reach map. */
export interface ReachTiles {
  readonly key: string;
  reachTile(spec: ReachTileSpec, signal: AbortSignal): Promise<ImageBitmap>;
}

export interface PictureTiles {
  readonly key: string;
  pictureTile(tile: TileAddress, size: number, signal: AbortSignal): Promise<ImageBitmap>;
}

/** Map tiles from an address that the user typed and switched on. */
export interface WebTiles {
  readonly key: string;
  webTile(tile: TileAddress, signal: AbortSignal): Promise<ImageBitmap>;
}
