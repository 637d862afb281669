import { DEGREE } from '../../geodesy/wgs84.ts';
import type { Degrees, Ratio } from '../../units/quantity.ts';
import { type GroundSamples, KNOWN } from '../levels/ground-samples.ts';
import type { ReliefSource } from '../levels/relief-source.ts';
import type { TerrainCharacter } from '../levels/terrain-character.ts';
import type { TileAddress } from '../levels/tile-address.ts';
import type { ReliefColours } from './relief-palette.ts';
import { RELIEF_PALETTES, type ReliefPalette, type Rgb } from './relief-palette.ts';

const MAIN_LIGHT = lightVector({ azimuth: 315, altitude: 45 });
const SIDE_LIGHT = lightVector({ azimuth: 250, altitude: 50 });
const MAIN_SHARE: Ratio = 0.72;

/** Slopes are drawn as if the steep quarter of the terrain were about this steep, but never flattened. */
const WANTED_STEEP: Ratio = 0.42;
const MOST_EXAGGERATION: Ratio = 4;
/** Brightness difference from flat ground that uses the whole pull of shadow or light. */
const SHADOW_SPAN: Ratio = 0.62;
const LIGHT_SPAN: Ratio = 0.3;
const TINT_STEPS = 256;

/** How much heights are stretched for the light, so that gentle ground shows its shape too. */
export function exaggeration(character: TerrainCharacter): Ratio {
  return Math.min(MOST_EXAGGERATION, Math.max(1, WANTED_STEEP / character.steep));
}

/** Paints samples as pixels, four bytes each, not premultiplied; nothing is drawn where the ground is not known. */
export function paintRelief(
  samples: GroundSamples,
  palette: ReliefPalette,
  character: TerrainCharacter,
): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * samples.side * samples.side);
  const tint = palette.tint && tintTable(palette.tint);
  const stretch = exaggeration(character);
  const span = Math.max(1, character.high - character.low);
  const flat = brightness(0, 0);
  for (let at = 0; at < samples.state.length; at += 1) {
    if (samples.state[at] !== KNOWN) continue;
    const relative = brightness((samples.east[at] ?? 0) * stretch, (samples.north[at] ?? 0) * stretch) - flat;
    const step = (((samples.heights[at] ?? 0) - character.low) / span) * (TINT_STEPS - 1);
    writePixel(pixels, at, palette, relative, tint, Math.min(TINT_STEPS - 1, Math.max(0, Math.round(step))));
  }
  return pixels;
}

function brightness(east: Ratio, north: Ratio): Ratio {
  const lit = MAIN_SHARE * facing(east, north, MAIN_LIGHT) + (1 - MAIN_SHARE) * facing(east, north, SIDE_LIGHT);
  return lit / steepness(east, north);
}

function writePixel(
  pixels: Uint8ClampedArray,
  at: number,
  palette: ReliefPalette,
  relative: Ratio,
  tint: Uint8ClampedArray | null,
  step: number,
): void {
  const dark = relative < 0;
  const share = dark ? -relative / SHADOW_SPAN : relative / LIGHT_SPAN;
  const pull = Math.min(1, share) * (dark ? palette.shadowPull : palette.lightPull);
  const end = dark ? palette.shadow : palette.light;
  pixels[4 * at] = towards(tint, 3 * step, end[0], pull);
  pixels[4 * at + 1] = towards(tint, 3 * step + 1, end[1], pull);
  pixels[4 * at + 2] = towards(tint, 3 * step + 2, end[2], pull);
  pixels[4 * at + 3] = tint ? 255 : 255 * pull;
}

/** A channel of a tint, pulled towards that of shadow or light; without a tint that of shadow or light itself. */
function towards(tint: Uint8ClampedArray | null, entry: number, target: number, pull: Ratio): number {
  const base = tint ? (tint[entry] ?? 0) : target;
  return base + (target - base) * pull;
}

function tintTable(stops: readonly Rgb[]): Uint8ClampedArray {
  const table = new Uint8ClampedArray(3 * TINT_STEPS);
  for (let step = 0; step < TINT_STEPS; step += 1) {
    const place = (step / (TINT_STEPS - 1)) * (stops.length - 1);
    const lower = Math.min(stops.length - 2, Math.floor(place));
    for (let channel = 0; channel < 3; channel += 1) {
      const from = stops[lower]?.[channel] ?? 0;
      const to = stops[lower + 1]?.[channel] ?? from;
      table[3 * step + channel] = from + (to - from) * (place - lower);
    }
  }
  return table;
}

/** A light far away: where it stands, clockwise from north, and how high above the horizon. */
interface Light {
  readonly azimuth: Degrees;
  readonly altitude: Degrees;
}

/** Unit vector towards a light: east, north, up. */
interface LightVector {
  readonly east: number;
  readonly north: number;
  readonly up: number;
}

export function lightVector(light: Light): LightVector {
  const flat = Math.cos(light.altitude * DEGREE);
  return {
    east: flat * Math.sin(light.azimuth * DEGREE),
    north: flat * Math.cos(light.azimuth * DEGREE),
    up: Math.sin(light.altitude * DEGREE),
  };
}

/**
 * Brightness of a slope under one light, 0 (no light falls on it) to 1 (it faces the light).
 *
 * shade = max(0, (−p·east − q·north + up) / √(1 + p² + q²)); p, q rise over run towards east and north.
 * Source: Horn, Hill Shading and the Reflectance Map, Proceedings of the IEEE 69(1), 1981, Lambertian surface.
 */
export function shade(p: Ratio, q: Ratio, light: LightVector): Ratio {
  return facing(p, q, light) / steepness(p, q);
}

/** Numerator of `shade`: a slope's normal, not of unit length, along a light. */
function facing(p: Ratio, q: Ratio, light: LightVector): Ratio {
  return Math.max(0, light.up - p * light.east - q * light.north);
}

/** Denominator of `shade`, the same under every light: length along the slope over its run. */
function steepness(p: Ratio, q: Ratio): Ratio {
  return Math.sqrt(1 + p * p + q * q);
}

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
