import { type GroundSamples, KNOWN } from '../levels/ground-samples.ts';
import type { ReliefSource } from '../levels/relief-source.ts';
import type { TileAddress } from '../levels/tile-address.ts';
import type { SlopeColours } from './slope-palette.ts';
import { SLOPE_COVER, SLOPE_PALETTES, slopeClass } from './slope-palette.ts';

export interface SlopeTileSpec {
  readonly tile: TileAddress;
  readonly colours: SlopeColours;
  /** Side of the image, pixels. */
  readonly size: number;
}

const OPAQUE = 255;

/** The slope classes of a tile as pixels, four bytes each, not premultiplied; clear on gentle ground and where nothing is known. */
export async function slopeTile(
  source: ReliefSource,
  spec: SlopeTileSpec,
  signal?: AbortSignal,
): Promise<Uint8ClampedArray<ArrayBuffer>> {
  const step = 1 / spec.size;
  const samples = await source.sample(spec.tile, { first: step / 2, step, side: spec.size }, signal);
  if (!samples) return new Uint8ClampedArray(4 * spec.size * spec.size);
  return paintSlopes(samples, spec.colours);
}

function paintSlopes(samples: GroundSamples, colours: SlopeColours): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * samples.side * samples.side);
  const palette = SLOPE_PALETTES[colours];
  for (let at = 0; at < samples.state.length; at += 1) {
    if (samples.state[at] !== KNOWN) continue;
    const colour = palette[slopeClass(Math.hypot(samples.east[at] ?? 0, samples.north[at] ?? 0))];
    if (!colour) continue;
    pixels.set(colour, 4 * at);
    pixels[4 * at + 3] = OPAQUE * SLOPE_COVER;
  }
  return pixels;
}
