import { distanceBetween } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Box } from '../figure/text-room.ts';

/** Room around the plot for coordinates, the scale and the kinds of line, px. */
const MARGIN = { left: 24, right: 8, top: 8, bottom: 56 } as const;
/** Clear ground around what is drawn, as a share of its longer side. */
const CLEARANCE = 0.1;
/** A plan of a single point still shows this much ground, m. */
const LEAST_GROUND: Metres = 60;
/** Height of the plot over its width, at least. */
const FLATTEST = 0.45;
const FULL_TURN = 360;
const HALF_TURN = 180;

/** From positions to pixels: north is up, one scale in both directions. */
export interface MapFrame {
  readonly width: number;
  readonly height: number;
  readonly plot: Box;
  readonly perMetre: number;
  /** Edges of the plot in degrees; the longitudes run on across the antimeridian. */
  readonly bounds: { readonly west: number; readonly east: number; readonly south: number; readonly north: number };
  x(lon: number): number;
  y(lat: number): number;
}

/**
 * Fits places into a figure of a given width. Degrees are stretched to metres by their geodesic lengths at the middle, which
 * is right to a pixel over the few kilometres of a plan. Null without a place.
 */
export function mapFrame(
  places: readonly Position[],
  size: { readonly width: number; readonly mostHeight: number },
): MapFrame | null {
  const [first] = places;
  if (first === undefined) return null;
  const lons = places.map(({ lon }) => near(lon, first.lon));
  const lats = places.map(({ lat }) => lat);
  const [west, east] = extent(lons);
  const [south, north] = extent(lats);
  const middle = { lon: (west + east) / 2, lat: (south + north) / 2 };
  const degree = metresOfDegree(middle);
  const ground = { width: (east - west) * degree.lon, height: (north - south) * degree.lat };
  const clear = 2 * CLEARANCE * Math.max(ground.width, ground.height, LEAST_GROUND / 2);
  const wanted = {
    width: Math.max(ground.width + clear, LEAST_GROUND),
    height: Math.max(ground.height + clear, LEAST_GROUND * FLATTEST),
  };
  const width = size.width - MARGIN.left - MARGIN.right;
  const most = size.mostHeight - MARGIN.top - MARGIN.bottom;
  const perMetre = Math.min(width / wanted.width, most / wanted.height);
  const height = Math.min(most, Math.max(width * FLATTEST, wanted.height * perMetre));
  const plot: Box = { left: MARGIN.left, top: MARGIN.top, width, height };
  const half = { lon: width / perMetre / degree.lon / 2, lat: height / perMetre / degree.lat / 2 };
  return {
    width: size.width,
    height: height + MARGIN.top + MARGIN.bottom,
    plot,
    perMetre,
    bounds: {
      west: middle.lon - half.lon,
      east: middle.lon + half.lon,
      south: middle.lat - half.lat,
      north: middle.lat + half.lat,
    },
    x: (lon) => plot.left + plot.width / 2 + (near(lon, middle.lon) - middle.lon) * degree.lon * perMetre,
    y: (lat) => plot.top + plot.height / 2 - (lat - middle.lat) * degree.lat * perMetre,
  };
}

/** A longitude as the one of its turns that lies nearest to another. */
function near(lon: number, other: number): number {
  return lon - FULL_TURN * Math.round((lon - other) / FULL_TURN);
}

function extent(values: readonly number[]): [number, number] {
  const least = values.reduce((a, b) => Math.min(a, b));
  const most = values.reduce((a, b) => Math.max(a, b));
  return [least, most];
}

/** Length of a thousandth of a degree on either side of a place, as metres a degree. */
function metresOfDegree({ lon, lat }: Position): { lon: Metres; lat: Metres } {
  const step = 0.001;
  const inside = Math.min(90 - step, Math.max(step - 90, lat));
  const turned = near(lon, 0);
  return {
    lon: distanceBetween({ lon: turned - step, lat: inside }, { lon: turned + step, lat: inside }) / (2 * step),
    lat: distanceBetween({ lon: turned, lat: inside - step }, { lon: turned, lat: inside + step }) / (2 * step),
  };
}

/** A longitude within ±180° again. */
export function wrapped(lon: number): number {
  const turned = near(lon, 0);
  return turned < -HALF_TURN ? turned + FULL_TURN : turned;
}
