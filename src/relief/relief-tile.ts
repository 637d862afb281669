import { paintRelief } from './paint-relief.ts';
import type { ReliefColours } from './relief-colours.ts';
import { RELIEF_PALETTES } from './relief-palette.ts';
import type { ReliefSource } from './relief-source.ts';
import type { TerrainCharacter } from './terrain-character.ts';
import type { TileAddress } from './tile-address.ts';

export interface ReliefTileSpec {
  readonly tile: TileAddress;
  readonly colours: ReliefColours;
  /** Side of the image, pixels. */
  readonly size: number;
}

/** The shaded relief of a tile as pixels, four bytes each; wholly clear where there is nothing to draw. */
export async function reliefTile(
  source: ReliefSource,
  character: TerrainCharacter,
  spec: ReliefTileSpec,
  signal?: AbortSignal,
): Promise<Uint8ClampedArray<ArrayBuffer>> {
  const step = 1 / spec.size;
  const samples = await source.sample(spec.tile, { first: step / 2, step, side: spec.size }, signal);
  if (!samples) return new Uint8ClampedArray(4 * spec.size * spec.size);
  return paintRelief(samples, RELIEF_PALETTES[spec.colours], character);
}
