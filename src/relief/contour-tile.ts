import type { Metres } from '../units/quantity.ts';
import { type ContourInterval, contourInterval, type HeightUnit } from './contour-interval.ts';
import { type GroundSamples, KNOWN } from './ground-samples.ts';
import { joinPieces } from './join-pieces.ts';
import { type CornerField, contourPieces, crossing } from './marching-squares.ts';
import { tileGround } from './mercator.ts';
import type { ReliefSource } from './relief-source.ts';
import type { TerrainCharacter } from './terrain-character.ts';
import type { TileAddress } from './tile-address.ts';
import { EXTENT, encodeVectorTile, type TileFeature } from './vector-tile.ts';
import { type VoidPatch, voidPatches } from './void-runs.ts';

export interface ContourTileSpec {
  readonly tile: TileAddress;
  readonly unit: HeightUnit;
  /** Smaller steps would show noise of the DEM, m. */
  readonly finest: Metres;
}

export interface EncodedContours {
  /** Vector tile with the layers `contour` (height, label, index) and `void`. */
  readonly data: Uint8Array;
  /** Step between lines in the unit shown. */
  readonly interval: number;
  /** What is left out at this zoom because the file is too large and has no coarse enough copies. */
  readonly tooFar: TooFar;
}

export type TooFar = 'nothing' | 'contours' | 'all';

/** Squares along a tile side; a square is 2 CSS pixels of a 512-pixel tile, so that bends look round. */
const SQUARES = 256;
/** Cells of the ground along a tile side, at least; coarser than the squares, so that single cells make no wiggles. */
const CELLS = 128;
const TILE_PIXELS = 512;
/** One more square on every side, so that lines of neighbouring tiles overlap instead of leaving gaps. */
const SPEC = { first: -1 / SQUARES, step: 1 / SQUARES, side: SQUARES + 3, coarse: 1 / CELLS };

/** Contour lines and voids of a tile. Lines meet at tile edges because both sides sample the same places there. */
export async function contourTile(
  source: ReliefSource,
  character: TerrainCharacter,
  spec: ContourTileSpec,
  signal?: AbortSignal,
): Promise<EncodedContours> {
  const interval = intervalAt(source, character, spec);
  const samples = await source.sample(spec.tile, SPEC, signal);
  const tooFar = tooFarAt(source, spec.tile.z);
  if (!samples) return { data: encodeVectorTile({}), interval: interval.step, tooFar };
  const contour = contourFeatures(samples, interval);
  const voids = voidPatches(samples).map(patchFeature);
  return { data: encodeVectorTile({ contour, void: voids }), interval: interval.step, tooFar };
}

/** Steps of a relief tile beside this one: tiles of half the side, each this many pixels along it. */
const RELIEF_PIXELS = 256;

function tooFarAt(source: ReliefSource, zoom: number): TooFar {
  if (source.tooFar(zoom + 1, 1 / RELIEF_PIXELS)) return 'all';
  return source.tooFar(zoom, SPEC.coarse) ? 'contours' : 'nothing';
}

/** The step depends on the zoom alone, never on the single tile, or lines would end at tile edges. */
function intervalAt(source: ReliefSource, character: TerrainCharacter, spec: ContourTileSpec): ContourInterval {
  const latitude = source.layers[0]?.scale.middle.lat ?? 0;
  const pixel = tileGround(spec.tile.z, latitude).east / TILE_PIXELS;
  return contourInterval({ unit: spec.unit, pixel, steep: character.steep, finest: spec.finest });
}

function contourFeatures(samples: GroundSamples, interval: ContourInterval): TileFeature[] {
  const field: CornerField = {
    side: samples.side,
    heights: samples.heights,
    known: samples.state.map((state) => (state === KNOWN ? 1 : 0)),
  };
  const pieces = contourPieces(field, interval.step * interval.unitMetres);
  return [...pieces].map(([multiple, { level, edges }]) => ({
    kind: 'line',
    parts: joinPieces(edges)
      .map((line) => line.map((edge) => tilePoint(...crossing(field, edge, level))))
      .filter(hasLength),
    properties: {
      height: multiple * interval.step,
      label: String(multiple * interval.step),
      index: multiple % interval.indexEvery === 0,
    },
  }));
}

/** Where a summit lies exactly at a level, its ring shrinks to a point. */
function hasLength(line: readonly (readonly [number, number])[]): boolean {
  const [first] = line;
  return line.some(([x, y]) => Math.hypot(x - (first?.[0] ?? x), y - (first?.[1] ?? y)) > 1);
}

function tilePoint(column: number, row: number): readonly [number, number] {
  return [((column - 1) / SQUARES) * EXTENT, ((row - 1) / SQUARES) * EXTENT];
}

/** A sample stands for the square around it. */
function patchFeature(patch: VoidPatch): TileFeature {
  const [left, top] = tilePoint(patch.left - 0.5, patch.top - 0.5);
  const [right, bottom] = tilePoint(patch.right - 0.5, patch.bottom - 0.5);
  const ring: [number, number][] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
    [left, top],
  ];
  return { kind: 'polygon', parts: [ring], properties: {} };
}
