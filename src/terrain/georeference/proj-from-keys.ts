import type { CrsReference } from '../../geodesy/wgs84.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { type GeoKeys, KEY } from './geo-keys.ts';
import { geographicFromKeys } from './proj-datum.ts';

/** A parameter of a projection: its name in proj, the keys that may hold it in order, and its value where none does. */
type Parameter = readonly [name: string, keys: readonly number[], absent: number | null];

const LON: Parameter = ['lon_0', [KEY.NatOriginLon, KEY.FalseOriginLon, KEY.CenterLon], 0];
const LAT: Parameter = ['lat_0', [KEY.NatOriginLat, KEY.FalseOriginLat, KEY.CenterLat], 0];
const SCALE: Parameter = ['k_0', [KEY.ScaleAtNatOrigin, KEY.ScaleAtCenter], 1];
const PARALLEL_1: Parameter = ['lat_1', [KEY.StdParallel1], null];
const PARALLEL_2: Parameter = ['lat_2', [KEY.StdParallel2], null];
const EAST: Parameter = ['x_0', [KEY.FalseEasting, KEY.FalseOriginEasting, KEY.CenterEasting], 0];
const NORTH: Parameter = ['y_0', [KEY.FalseNorthing, KEY.FalseOriginNorthing, KEY.CenterNorthing], 0];
/** Where a conic states a false origin, that comes before a natural one. */
const CONIC_LON: Parameter = ['lon_0', [KEY.FalseOriginLon, KEY.NatOriginLon, KEY.CenterLon], 0];
const CONIC_LAT: Parameter = ['lat_0', [KEY.FalseOriginLat, KEY.NatOriginLat, KEY.CenterLat], 0];
const CONIC_EAST: Parameter = ['x_0', [KEY.FalseOriginEasting, KEY.FalseEasting, KEY.CenterEasting], 0];
const CONIC_NORTH: Parameter = ['y_0', [KEY.FalseOriginNorthing, KEY.FalseNorthing, KEY.CenterNorthing], 0];
/** Latitude of true scale, which comes before a scale factor. */
const TRUE_SCALE: Parameter = ['lat_ts', [KEY.StdParallel1], 0];
/** At the pole itself the scale factor counts, short of it this is the latitude of true scale. */
const POLE_LAT: Parameter = ['lat_ts', [KEY.NatOriginLat, KEY.StdParallel1], null];
const POLE_LON: Parameter = ['lon_0', [KEY.StraightVertPoleLon, KEY.NatOriginLon, KEY.CenterLon], 0];

interface Method {
  readonly proj: string;
  readonly parameters: readonly Parameter[];
}

/** Methods by coordinate transformation code. Source: GeoTIFF 1.0, section 6.3.3.3; PROJ's parameter names. */
const METHODS: Readonly<Record<number, Method>> = {
  1: { proj: 'tmerc', parameters: [LAT, LON, SCALE, EAST, NORTH] },
  7: { proj: 'merc', parameters: [TRUE_SCALE, LON, SCALE, EAST, NORTH] },
  8: { proj: 'lcc', parameters: [CONIC_LAT, CONIC_LON, PARALLEL_1, PARALLEL_2, CONIC_EAST, CONIC_NORTH] },
  9: { proj: 'lcc', parameters: [LAT, ['lat_1', [KEY.NatOriginLat], null], LON, SCALE, EAST, NORTH] },
  10: { proj: 'laea', parameters: [LAT, LON, EAST, NORTH] },
  11: { proj: 'aea', parameters: [CONIC_LAT, CONIC_LON, PARALLEL_1, PARALLEL_2, CONIC_EAST, CONIC_NORTH] },
  15: { proj: 'stere', parameters: [POLE_LAT, POLE_LON, SCALE, EAST, NORTH] },
  16: { proj: 'sterea', parameters: [LAT, LON, SCALE, EAST, NORTH] },
  17: {
    proj: 'eqc',
    parameters: [['lat_ts', [KEY.StdParallel1, KEY.CenterLat, KEY.NatOriginLat], 0], LON, EAST, NORTH],
  },
  18: { proj: 'cass', parameters: [LAT, LON, EAST, NORTH] },
};

/** Metres of a linear unit of the grid. Source: EPSG registry. */
const LINEAR_UNITS: Readonly<Record<number, string>> = {
  9001: '+units=m',
  9002: '+to_meter=0.3048',
  9003: '+to_meter=0.304800609601219',
  9036: '+to_meter=1000',
  9094: '+to_meter=0.304799710181509',
  9095: '+to_meter=0.3048007491',
};

const DEGREE = 9102;

/** A projection that the file writes out in its keys, as a proj string. */
export async function projectedFromKeys(keys: GeoKeys): Promise<CrsReference> {
  const utm = utmZone(keys);
  if (utm !== null) {
    const { zone, south } = utm;
    const datum = await geographicFromKeys(keys);
    const title = keys.text(KEY.ProjectedCitation) ?? keys.text(KEY.Citation) ?? `UTM zone ${zone}${south ? 'S' : 'N'}`;
    const { text } = linearUnit(keys);
    return {
      kind: 'proj',
      definition: `+proj=utm +zone=${zone}${south ? ' +south' : ''} ${datum} ${text} +no_defs`,
      title,
    };
  }
  const code = keys.code(KEY.ProjectionMethod);
  const method = code === undefined ? undefined : METHODS[code];
  if (method === undefined) {
    refuse({
      code: 'crs',
      where: 'ProjectionMethod',
      found: `projection method ${code ?? keys.number(KEY.Projection)}`,
      expected: 'a transverse Mercator, conic, azimuthal, stereographic or cylindrical projection',
    });
  }
  checkDegrees(keys);
  const toMetre = linearUnit(keys);
  const stated = method.parameters.map((parameter) => written(parameter, keys, toMetre.metres));
  const parameters = method.proj === 'stere' ? atThePole(stated) : stated;
  const definition = [
    `+proj=${method.proj}`,
    ...parameters,
    await geographicFromKeys(keys),
    toMetre.text,
    '+no_defs',
  ].join(' ');
  const title = keys.text(KEY.ProjectedCitation) ?? keys.text(KEY.Citation) ?? `user-defined ${method.proj}`;
  return { kind: 'proj', definition, title };
}

/** A UTM zone named by its conversion alone. Source: EPSG registry, conversions 16001 to 16060 and 16101 to 16160. */
function utmZone(keys: GeoKeys): { readonly zone: number; readonly south: boolean } | null {
  const projection = keys.code(KEY.Projection) ?? 0;
  if (keys.code(KEY.ProjectionMethod) !== undefined) return null;
  const zone = projection % 100;
  const isZone =
    zone >= 1 && zone <= 60 && (Math.floor(projection / 100) === 160 || Math.floor(projection / 100) === 161);
  return isZone ? { zone, south: projection >= 16101 } : null;
}

/** A UTM zone named by its conversion alone, on a datum for which the registry has the zone: its EPSG code. */
export function utmCode(keys: GeoKeys): number | undefined {
  const projection = keys.code(KEY.Projection);
  if (projection === undefined || keys.code(KEY.ProjectionMethod) !== undefined) return undefined;
  const north = projection >= 16001 && projection <= 16060;
  const south = projection >= 16101 && projection <= 16160;
  const zone = projection % 100;
  const linear = keys.code(KEY.LinearUnits) ?? 9001;
  if (linear !== 9001) return undefined;
  const geodetic = keys.code(KEY.GeodeticCrs);
  if (geodetic === 4326 && (north || south)) return (north ? 32600 : 32700) + zone;
  if (geodetic === 4269 && north && zone <= 23) return 26900 + zone;
  if (geodetic === 4258 && north && zone >= 28 && zone <= 38) return 25800 + zone;
  return undefined;
}

const POLE = 90;

/**
 * A polar stereographic projection in proj's words: about the pole with a scale factor, or with a latitude of true scale and
 * no factor. Source: OGC GeoTIFF 1.1 (19-008r4), annex C.2; EPSG Guidance Note 7-2, methods 9810 and 9829.
 */
function atThePole(stated: readonly string[]): readonly string[] {
  const word = stated.find((part) => part.startsWith('+lat_ts=')) ?? '';
  const lat = Number(word.slice('+lat_ts='.length));
  const pole = `+lat_0=${Math.sign(lat) * POLE}`;
  if (Math.abs(lat) === POLE) return stated.map((part) => (part === word ? pole : part));
  return [pole, ...stated.filter((part) => !part.startsWith('+k_0='))];
}

function written([name, places, absent]: Parameter, keys: GeoKeys, metres: number): string {
  const key = places.find((place) => keys.number(place) !== undefined);
  const value = key === undefined ? absent : (keys.number(key) ?? absent);
  if (value === null || !Number.isFinite(value)) {
    refuse({ code: 'crs', where: 'ProjectionMethod', found: `no ${name}`, expected: `a projection with its ${name}` });
  }
  // False easting and northing stand in the unit of the grid; proj wants metres.
  const length = name === 'x_0' || name === 'y_0';
  return `+${name}=${length ? value * metres : value}`;
}

function linearUnit(keys: GeoKeys): { text: string; metres: number } {
  const code = keys.code(KEY.LinearUnits);
  const size = keys.number(KEY.LinearUnitSize);
  if (code === undefined && size !== undefined) return { text: `+to_meter=${size}`, metres: size };
  const text = LINEAR_UNITS[code ?? 9001];
  if (text === undefined) {
    refuse({ code: 'crs', where: 'LinearUnits', found: `unit ${code}`, expected: 'metres or feet' });
  }
  const metres = text.startsWith('+to_meter=') ? Number(text.slice('+to_meter='.length)) : 1;
  return { text, metres };
}

function checkDegrees(keys: GeoKeys): void {
  const unit = keys.code(KEY.AngularUnits) ?? DEGREE;
  if (unit === DEGREE) return;
  refuse({ code: 'crs', where: 'AngularUnits', found: `unit ${unit}`, expected: 'degrees (9102)' });
}
