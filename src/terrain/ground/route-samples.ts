import { CompensatedSum } from '../../geodesy/compensated-sum.ts';
import { traceCubic } from '../../geodesy/cubic-trace.ts';
import { type GeodesicStretch, geodesicStretch } from '../../geodesy/geodesic-stretch.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PlacedGrid } from '../grid/placed-grid.ts';
import type { CellTrack } from './bilinear.ts';

/** Places at equal steps between the vertices of a drawn line, with every vertex among them. */
export interface RouteSamples {
  readonly count: number;
  readonly pieces: readonly RoutePiece[];
  readonly vertices: Uint32Array;
  readonly horizontal: Metres;
}

/** One stretch between vertices, with the samples at its two ends. */
interface RoutePiece {
  readonly stretch: GeodesicStretch;
  readonly first: number;
  readonly last: number;
  /** Distance of its start from the line's start, m. */
  readonly start: Metres;
}

/** Lays samples along a line, no further apart than a step. */
export function layOutSamples(line: readonly Position[], step: Metres): RouteSamples {
  const vertices = new Uint32Array(line.length);
  const pieces: RoutePiece[] = [];
  const length = new CompensatedSum();
  let before: Position | undefined;
  let last = 0;
  line.forEach((vertex, k) => {
    if (before) {
      const stretch = geodesicStretch(before, vertex);
      const first = last;
      last = first + Math.max(1, Math.ceil(stretch.length / step));
      pieces.push({ stretch, first, last, start: length.value });
      length.add(stretch.length);
    }
    vertices[k] = last;
    before = vertex;
  });
  return { count: line.length === 0 ? 0 : last + 1, pieces, vertices, horizontal: length.value };
}

/** Distance from the start of every sample, m. */
export function distancesOf({ count, pieces, horizontal }: RouteSamples): Float64Array {
  const at = new Float64Array(count);
  for (const { stretch, first, last, start } of pieces) {
    const step = stretch.length / (last - first);
    for (let i = first; i < last; i++) at[i] = start + (i - first) * step;
  }
  at[count - 1] = horizontal;
  return at;
}

/** Tolerance of a traced place: none beyond what the spacing already promises. */
const BY_SPACING = { u: Number.POSITIVE_INFINITY, v: Number.POSITIVE_INFINITY };

/** Longitude and latitude of every sample, to a nanometre; the vertices exactly as drawn. */
export function placesOf(samples: RouteSamples, line: readonly Position[]): { lon: Float64Array; lat: Float64Array } {
  const lon = new Float64Array(samples.count);
  const lat = new Float64Array(samples.count);
  for (const { stretch, first, last } of samples.pieces) {
    const curve = (share: number) => {
      const place = stretch.placeAt(share * stretch.length);
      return { u: place.lon, v: place.lat };
    };
    const span = stretch.cubicSpacing / stretch.length;
    traceCubic(curve, { u: lon, v: lat, first, last }, { span, tolerance: BY_SPACING, nowhere: 0 });
  }
  for (let i = 0; i < samples.count; i++) lon[i] = withinHalfTurn(lon[i] as number);
  line.forEach((vertex, k) => {
    const i = samples.vertices[k] as number;
    lon[i] = vertex.lon;
    lat[i] = vertex.lat;
  });
  return { lon, lat };
}

const HALF_TURN = 180;

const withinHalfTurn = (lon: number): number =>
  lon > HALF_TURN ? lon - 2 * HALF_TURN : lon < -HALF_TURN ? lon + 2 * HALF_TURN : lon;

/** How far a traced sample may lie from its exact place in the grid: a tenth of a micrometre. */
const PLACE_TOLERANCE: Metres = 1e-7;

/** Cell coordinates of a sample whose place the grid's CRS does not have. */
export const NOWHERE = -1;

/** Cell coordinates of every sample in a grid whose cells are so wide and high, to a tenth of a micrometre. */
export function cellsOf(
  samples: RouteSamples,
  line: readonly Position[],
  placed: PlacedGrid,
  cell: { readonly width: Metres; readonly height: Metres },
): CellTrack {
  const column = new Float64Array(samples.count);
  const row = new Float64Array(samples.count);
  for (const { stretch, first, last } of samples.pieces) {
    const curve = (share: number) => {
      const cell = placed.cellAt(stretch.placeAt(share * stretch.length));
      return cell && { u: cell.column, v: cell.row };
    };
    const span = stretch.cubicSpacing / stretch.length;
    const tolerance = { u: PLACE_TOLERANCE / cell.width, v: PLACE_TOLERANCE / cell.height };
    traceCubic(curve, { u: column, v: row, first, last }, { span, tolerance, nowhere: NOWHERE });
  }
  line.forEach((vertex, k) => {
    const cell = placed.cellAt(vertex);
    const i = samples.vertices[k] as number;
    column[i] = cell ? cell.column : NOWHERE;
    row[i] = cell ? cell.row : NOWHERE;
  });
  return { column, row };
}
