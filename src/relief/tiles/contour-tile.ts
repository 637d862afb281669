import { fromVectorTileJs, type VectorTileFeatureLike } from '@maplibre/vt-pbf';
import type { Metres, Ratio } from '../../units/quantity.ts';
import { type GroundSamples, KNOWN, VOID } from '../levels/ground-samples.ts';
import { tileGround } from '../levels/mercator.ts';
import type { ReliefSource } from '../levels/relief-source.ts';
import type { TerrainCharacter } from '../levels/terrain-character.ts';
import type { TileAddress } from '../levels/tile-address.ts';
import { type CornerField, contourPieces, crossing } from './marching-squares.ts';

type HeightUnit = 'metre' | 'foot';

/** Steps between contour lines that map readers know, in the unit shown. */
const STEPS: Readonly<Record<HeightUnit, readonly number[]>> = {
  metre: [1, 2, 5, 10, 20, 50, 100, 200, 500],
  foot: [2, 5, 10, 20, 50, 100, 200, 500, 1000],
};

/** Lines between two stressed and labelled ones, by step, so that labels are round: 5, 10, 25, 50 … */
const INDEX_EVERY = 5;

/** International foot. Source: NIST Special Publication 811, 2008, appendix B.6. */
const METRES_PER_FOOT: Metres = 0.3048;

/** Distance between two lines on ground of the steep quarter, as shown, CSS pixels. */
const CLEARANCE = 8.5;

interface IntervalQuestion {
  readonly unit: HeightUnit;
  /** Ground length of a CSS pixel, m. */
  readonly pixel: Metres;
  /** Slope that three quarters of the ground stay below. */
  readonly steep: Ratio;
  /** Smaller steps would show noise of the DEM, m. */
  readonly finest: Metres;
}

interface ContourInterval {
  /** Step in the unit shown. */
  readonly step: number;
  /** Metres to one unit shown. */
  readonly unitMetres: Metres;
  readonly indexEvery: number;
}

/** The smallest usual step whose lines keep their distance on the steep quarter of the ground. */
export function contourInterval(question: IntervalQuestion): ContourInterval {
  const unitMetres: Metres = question.unit === 'foot' ? METRES_PER_FOOT : 1;
  const least = Math.max(question.finest, CLEARANCE * question.pixel * question.steep);
  const steps = STEPS[question.unit];
  const step = steps.find((candidate) => candidate * unitMetres >= least) ?? steps[steps.length - 1] ?? 1;
  return { step, unitMetres, indexEvery: INDEX_EVERY };
}

/** Coordinates across a vector tile. */
const EXTENT = 4096;
const TILE_VERSION = 2;

interface TileFeature {
  readonly kind: 'line' | 'polygon';
  /** Lines or rings in tile coordinates; a ring repeats its first point. */
  readonly parts: readonly (readonly (readonly [number, number])[])[];
  readonly properties: Readonly<Record<string, number | string | boolean>>;
}

/** Encodes layers of features as a Mapbox Vector Tile, version 2.1. */
export function encodeVectorTile(layers: Readonly<Record<string, readonly TileFeature[]>>): Uint8Array {
  const encoded: Record<string, ReturnType<typeof tileLayer>> = {};
  for (const [name, features] of Object.entries(layers)) encoded[name] = tileLayer(name, features);
  return fromVectorTileJs({ layers: encoded });
}

function tileLayer(name: string, features: readonly TileFeature[]) {
  return {
    version: TILE_VERSION,
    name,
    extent: EXTENT,
    length: features.length,
    feature: (index: number) => tileFeature(features[index]),
  };
}

function tileFeature(feature: TileFeature | undefined): VectorTileFeatureLike {
  const parts = feature?.parts ?? [];
  const points = parts.map((part) => part.map(([x, y]) => ({ x: Math.round(x), y: Math.round(y) })));
  return {
    type: feature?.kind === 'polygon' ? 3 : 2,
    properties: { ...feature?.properties },
    id: undefined,
    extent: EXTENT,
    // The encoder reads x and y alone of each point.
    loadGeometry: () => points as unknown as ReturnType<VectorTileFeatureLike['loadGeometry']>,
  };
}

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
  const interval = intervalAt(source, character, { ...spec, zoom: spec.tile.z });
  const samples = await source.sample(spec.tile, SPEC, signal);
  const tooFar = tooFarAt(source, spec.tile.z);
  if (!samples) return { data: encodeVectorTile({}), interval: interval.step, tooFar };
  const contour = contoursIn(samples, interval).map(contourFeature);
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
export function intervalAt(
  source: ReliefSource,
  { steep }: TerrainCharacter,
  { zoom, unit, finest }: Pick<ContourTileSpec, 'unit' | 'finest'> & { readonly zoom: number },
): ContourInterval {
  const latitude = source.layers[0]?.scale.middle.lat ?? 0;
  const pixel = tileGround(zoom, latitude).east / TILE_PIXELS;
  return contourInterval({ unit, pixel, steep, finest });
}

/** A line of one height across a tile; places are shares of the tile's sides, from its north-western corner. */
export interface TileContour {
  /** In the unit shown. */
  readonly height: number;
  readonly index: boolean;
  readonly lines: readonly (readonly (readonly [number, number])[])[];
}

/** Contour lines of a tile's samples. */
export async function tileContours(
  source: ReliefSource,
  { tile, interval }: { readonly tile: TileAddress; readonly interval: ContourInterval },
  signal?: AbortSignal,
): Promise<readonly TileContour[]> {
  const samples = await source.sample(tile, SPEC, signal);
  return samples ? contoursIn(samples, interval) : [];
}

function contoursIn(samples: GroundSamples, interval: ContourInterval): TileContour[] {
  const field: CornerField = {
    side: samples.side,
    heights: samples.heights,
    known: samples.state.map((state) => (state === KNOWN ? 1 : 0)),
  };
  const pieces = contourPieces(field, interval.step * interval.unitMetres);
  return [...pieces].map(([multiple, { level, edges }]) => ({
    height: multiple * interval.step,
    index: multiple % interval.indexEvery === 0,
    lines: joinPieces(edges)
      .map((line) => line.map((edge) => tileShare(...crossing(field, edge, level))))
      .filter(hasLength),
  }));
}

function contourFeature({ height, index, lines }: TileContour): TileFeature {
  return {
    kind: 'line',
    parts: lines.map((line) => line.map(([u, v]) => [u * EXTENT, v * EXTENT] as const)),
    properties: { height, label: String(height), index },
  };
}

/** Where a summit lies exactly at a level, its ring shrinks to a point. */
function hasLength(line: readonly (readonly [number, number])[]): boolean {
  const [first] = line;
  return line.some(([x, y]) => Math.hypot(x - (first?.[0] ?? x), y - (first?.[1] ?? y)) > 1 / EXTENT);
}

function tileShare(column: number, row: number): readonly [number, number] {
  return [(column - 1) / SQUARES, (row - 1) / SQUARES];
}

/** A sample stands for the square around it. */
function patchFeature(patch: VoidPatch): TileFeature {
  const corner = (column: number, row: number) => tileShare(column - 0.5, row - 0.5).map((share) => share * EXTENT);
  const [left = 0, top = 0] = corner(patch.left, patch.top);
  const [right = 0, bottom = 0] = corner(patch.right, patch.bottom);
  const ring: [number, number][] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
    [left, top],
  ];
  return { kind: 'polygon', parts: [ring], properties: {} };
}

/** Chains pieces, given as pairs of start and end edge, into lines of edges; a ring repeats its first edge at the end. */
export function joinPieces(edges: readonly number[]): number[][] {
  const next = new Map<number, number>();
  const entered = new Set<number>();
  for (let at = 0; at + 1 < edges.length; at += 2) {
    next.set(edges[at] ?? 0, edges[at + 1] ?? 0);
    entered.add(edges[at + 1] ?? 0);
  }
  const lines: number[][] = [];
  // Open lines first, from the edges that nothing leads to; what is left are rings.
  for (const start of next.keys()) if (!entered.has(start)) lines.push(follow(next, start));
  for (const start of next.keys()) lines.push(follow(next, start));
  return lines;
}

function follow(next: Map<number, number>, start: number): number[] {
  const line = [start];
  let edge = next.get(start);
  next.delete(start);
  while (edge !== undefined) {
    line.push(edge);
    const after = next.get(edge);
    next.delete(edge);
    edge = after;
  }
  return line;
}

/** A rectangle of lattice squares without a height: first column and row, and the ones after the last. */
interface VoidPatch {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The squares around void samples as few rectangles: runs along a row, joined with equal runs in the rows below. */
function voidPatches(samples: GroundSamples): VoidPatch[] {
  const done: VoidPatch[] = [];
  let open = new Map<string, VoidPatch>();
  for (let row = 0; row < samples.side; row += 1) {
    const still = new Map<string, VoidPatch>();
    for (const [left, right] of voidRuns(samples, row)) {
      const key = `${left}-${right}`;
      const above = open.get(key);
      open.delete(key);
      still.set(key, { left, right, top: above?.top ?? row, bottom: row + 1 });
    }
    done.push(...open.values());
    open = still;
  }
  return [...done, ...open.values()];
}

function voidRuns(samples: GroundSamples, row: number): [number, number][] {
  const runs: [number, number][] = [];
  let start = -1;
  for (let column = 0; column <= samples.side; column += 1) {
    const isVoid = column < samples.side && samples.state[row * samples.side + column] === VOID;
    if (isVoid && start < 0) start = column;
    if (!isVoid && start >= 0) {
      runs.push([start, column]);
      start = -1;
    }
  }
  return runs;
}
