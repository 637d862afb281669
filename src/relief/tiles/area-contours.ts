import type { Position } from '../../geodesy/position.ts';
import type { Degrees, Metres } from '../../units/quantity.ts';
import { placeInTile } from '../levels/mercator.ts';
import type { ReliefSource } from '../levels/relief-source.ts';
import type { TerrainCharacter } from '../levels/terrain-character.ts';
import type { TileAddress } from '../levels/tile-address.ts';
import { type ContourTileSpec, intervalAt, tileContours } from './contour-tile.ts';

/** Edges of an area; the east may lie beyond 180° when it crosses the antimeridian. */
export interface AreaBounds {
  readonly west: Degrees;
  readonly south: Degrees;
  readonly east: Degrees;
  readonly north: Degrees;
}

/** A contour line as places. Lines end at the edges of the tiles that they were traced in. */
export interface AreaContour {
  readonly height: Metres;
  readonly index: boolean;
  readonly line: readonly Position[];
}

const DEEPEST = 20;
/** An area is cut into at most so many tiles in either direction. */
const MOST_TILES = 2;
const TURN: Degrees = 360;
const HALF_TURN: Degrees = 180;

/** Contour lines of an area for a picture a few hundred pixels wide, at a step that suits it; the same ground as the map's. */
export async function areaContours(
  source: ReliefSource,
  character: TerrainCharacter,
  { bounds, unit, finest }: Pick<ContourTileSpec, 'unit' | 'finest'> & { readonly bounds: AreaBounds },
  signal?: AbortSignal,
): Promise<readonly AreaContour[]> {
  const zoom = zoomFor(bounds);
  const interval = intervalAt(source, character, { zoom, unit, finest });
  const found: AreaContour[] = [];
  for (const tile of tilesOver(bounds, zoom)) {
    for (const { height, index, lines } of await tileContours(source, { tile, interval }, signal)) {
      for (const line of lines) {
        const places = line.map(([u, v]) => placeInTile(tile, u, v));
        found.push({ height: height * interval.unitMetres, index, line: places });
      }
    }
  }
  return found;
}

/** The deepest zoom at which the area is no wider and no higher than so many tiles. */
function zoomFor(bounds: AreaBounds): number {
  const [left, top] = shareOfWorld({ lon: bounds.west, lat: bounds.north });
  const [right, bottom] = shareOfWorld({ lon: bounds.east, lat: bounds.south });
  const largest = Math.max(right - left, bottom - top, 2 ** -DEEPEST);
  return Math.max(0, Math.min(DEEPEST, Math.floor(Math.log2((MOST_TILES - 1) / largest))));
}

function tilesOver(bounds: AreaBounds, z: number): readonly TileAddress[] {
  const turns = 2 ** z;
  const [left, top] = shareOfWorld({ lon: bounds.west, lat: bounds.north });
  const [right, bottom] = shareOfWorld({ lon: bounds.east, lat: bounds.south });
  const columns = span(left * turns, right * turns).map((x) => ((x % turns) + turns) % turns);
  const rows = span(top * turns, bottom * turns).filter((y) => y >= 0 && y < turns);
  return rows.flatMap((y) => [...new Set(columns)].map((x) => ({ z, x, y })));
}

function span(from: number, to: number): number[] {
  const first = Math.floor(from);
  return Array.from({ length: Math.floor(to) - first + 1 }, (_, at) => first + at);
}

/** Inverse of `placeInTile` for the one tile of zoom 0. Source: as there. */
function shareOfWorld({ lon, lat }: Position): readonly [number, number] {
  const phi = (lat * Math.PI) / HALF_TURN;
  return [(lon + HALF_TURN) / TURN, (1 - Math.asinh(Math.tan(phi)) / Math.PI) / 2];
}
