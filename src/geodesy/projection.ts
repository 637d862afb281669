import proj4, { type Converter } from 'proj4';
import type { Outcome, Problem } from '../units/outcome.ts';
import type { Metres, Ratio } from '../units/quantity.ts';
import { type AreaOfUse, type CrsRow, crsFromTable, type DatumShift, refusedCrsName } from './crs-table.ts';
import type { Position } from './position.ts';
import { isGeographic, metresPerUnit, type ProjWords, readProjWords, unusableWord } from './proj-words.ts';
import { compoundCrs } from './vertical-crs.ts';
import type { CrsReference } from './wgs84.ts';

/** A datum as a proj string names it, with its shift to WGS 84. */
interface Datum {
  readonly words: string;
  readonly shift: DatumShift;
}

const noShift = (name: string, accuracy: number): DatumShift => ({ name, accuracy, parameters: [] });

const WGS84: Datum = { words: '+datum=WGS84', shift: noShift('already WGS 84', 0) };
const ETRS89: Datum = { words: '+ellps=GRS80', shift: noShift('ETRS89 to WGS 84 (1)', 1) };
const NAD83: Datum = { words: '+ellps=GRS80', shift: noShift('NAD83 to WGS 84 (1)', 4) };
const GDA94: Datum = { words: '+ellps=GRS80', shift: noShift('GDA94 to WGS 84 (1)', 3) };
const GDA2020: Datum = { words: '+ellps=GRS80', shift: noShift('GDA2020 to WGS 84 (2)', 3) };

/** A run of codes for neighbouring zones: code = from + (zone − zones[0]). */
interface ZoneRun {
  readonly from: number;
  readonly zones: readonly [first: number, last: number];
  readonly south: boolean;
  readonly datum: Datum;
  /** Name of the CRS; the zone's number takes the place of #. */
  readonly title: string;
}

/** Zones of the Universal Transverse Mercator grid that open DEMs come in. Source: EPSG Geodetic Parameter Dataset v10.076. */
const zoneRuns: readonly ZoneRun[] = [
  { from: 32601, zones: [1, 60], south: false, datum: WGS84, title: 'WGS 84 / UTM zone #N' },
  { from: 32701, zones: [1, 60], south: true, datum: WGS84, title: 'WGS 84 / UTM zone #S' },
  { from: 25828, zones: [28, 37], south: false, datum: ETRS89, title: 'ETRS89 / UTM zone #N' },
  { from: 26902, zones: [2, 23], south: false, datum: NAD83, title: 'NAD83 / UTM zone #N' },
  { from: 28348, zones: [48, 58], south: true, datum: GDA94, title: 'GDA94 / MGA zone #' },
  { from: 7846, zones: [46, 59], south: true, datum: GDA2020, title: 'GDA2020 / MGA zone #' },
];

const longitudeLatitude: CrsRow = {
  code: 4326,
  name: 'WGS 84',
  projection: `+proj=longlat ${WGS84.words}`,
  shift: WGS84.shift,
  area: null,
};

/** The row of a code that follows a rule, so that usual files need no table; null for every other code. */
export function crsByRule(code: number): CrsRow | null {
  if (code === longitudeLatitude.code) return longitudeLatitude;
  const found = zoneRuns.find(({ from, zones: [first, last] }) => code >= from && code <= from + last - first);
  if (!found) return null;
  const zone = found.zones[0] + code - found.from;
  return {
    code,
    name: found.title.replace('#', String(zone)),
    projection: `+proj=utm +zone=${zone}${found.south ? ' +south' : ''} ${found.datum.words}`,
    shift: found.datum.shift,
    area: null,
  };
}

/** Coordinates of a CRS in its own unit: east then north, or longitude then latitude in degrees. */
export interface Planar {
  readonly x: number;
  readonly y: number;
}

/** A CRS that can be computed: to its coordinates and back. */
export interface Projection {
  readonly name: string;
  /** Code of the EPSG registry; null for one built from a file's own keys. */
  readonly code: number | null;
  readonly geographic: boolean;
  /** Metres in one unit of projected coordinates; degrees for a geographic CRS, where this is 1 and means nothing. */
  readonly metresPerUnit: Ratio;
  /** How its datum moves to WGS 84; accuracy null where none is published. It moves the map, not the heights. */
  readonly shift: { readonly name: string; readonly accuracy: Metres | null };
  /** Where the registry means it to be used; null where that is not known. */
  readonly area: AreaOfUse | null;
  /** Null where the CRS has no such place. */
  forward(position: Position): Planar | null;
  inverse(place: Planar): Position | null;
}

const REGISTRY = 'a code of the EPSG registry v10.076';

/** Makes a CRS computable, or says by name why it cannot be. */
export async function projectionOf(reference: CrsReference): Promise<Outcome<Projection>> {
  if (reference.kind === 'proj') {
    const shift = shiftOfWords(readProjWords(reference.definition));
    return projectionFrom(reference.definition, { name: reference.title, code: null, shift, area: null });
  }
  const row = (await rowOf(reference.code)) ?? (await rowOfCompound(reference.code));
  if (!row) return refusal(await unknownCode(reference.code));
  return projectionFrom(definitionOf(row), row);
}

const rowOf = async (code: number): Promise<CrsRow | null> => crsByRule(code) ?? (await crsFromTable(code));

/** The horizontal part of a code that stands for place and height together. */
async function rowOfCompound(code: number): Promise<CrsRow | null> {
  const compound = await compoundCrs(code);
  return compound && rowOf(compound.horizontal);
}

/** What a proj string says of its datum; how well its own shift fits is nowhere published. */
function shiftOfWords(words: ProjWords): Projection['shift'] {
  const datum = words.get('datum');
  if (datum === 'WGS84') return { name: 'already WGS 84', accuracy: 0 };
  // EPSG:1188, accuracy 4 m: EPSG Geodetic Parameter Dataset v10.076.
  if (datum === 'NAD83') return { name: 'NAD83 to WGS 84 (1)', accuracy: 4 };
  return { name: 'stated by the file', accuracy: null };
}

const refusal = (problem: Omit<Problem, 'path'>): Outcome<never> => ({
  ok: false,
  problems: [{ ...problem, path: 'crs' }],
});

async function unknownCode(code: number): Promise<Omit<Problem, 'path'>> {
  const name = await refusedCrsName(code);
  if (name === null) return { code: 'crs-unknown', found: `EPSG:${code}`, expected: REGISTRY };
  return { code: 'crs-not-computable', found: `EPSG:${code} ${name}`, expected: 'a CRS that can be computed here' };
}

const definitionOf = ({ projection, shift }: CrsRow): string =>
  shift.parameters.length === 0 ? projection : `${projection} +towgs84=${shift.parameters.join(',')}`;

/** Makes a proj string computable; a word that the library would drop silently is refused instead. */
function projectionFrom(
  definition: string,
  about: Pick<Projection, 'name' | 'code' | 'shift' | 'area'>,
): Outcome<Projection> {
  const words = readProjWords(definition);
  const unusable = unusableWord(words);
  if (unusable) return refusal({ code: 'crs-not-computable', ...unusable, found: `${about.name}: ${unusable.found}` });
  const geographic = isGeographic(words);
  try {
    const converter = proj4(`${definition} +no_defs`);
    return {
      ok: true,
      value: {
        name: about.name,
        code: about.code,
        area: about.area,
        shift: { name: about.shift.name, accuracy: about.shift.accuracy },
        geographic,
        metresPerUnit: geographic ? 1 : metresPerUnit(words),
        ...(words.get('axis') === 'wsu' ? turnedRound(thereAndBack(converter)) : thereAndBack(converter)),
      },
    };
  } catch (error) {
    return refusal({ code: 'crs-not-computable', found: `${definition}: ${String(error)}`, expected: 'a proj string' });
  }
}

/**
 * The library's way back misses the start by millimetres after a datum shift and by up to a millimetre in a few methods whose
 * series are cut short. One correction brings it to the start.
 */
function thereAndBack(converter: Converter): Pick<Projection, 'forward' | 'inverse'> {
  const there = (x: number, y: number): Planar | null => placeOrNull(converter.forward, x, y);
  const back = (x: number, y: number): Planar | null => placeOrNull(converter.inverse, x, y);
  return {
    forward: ({ lon, lat }) => there(lon, lat),
    inverse({ x, y }) {
      const near = back(x, y);
      const reached = near && there(near.x, near.y);
      return asPosition(reached && back(2 * x - reached.x, 2 * y - reached.y));
    },
  };
}

/** Coordinates that run west and south, which the library gives east and north whatever the words say. */
function turnedRound({
  forward,
  inverse,
}: Pick<Projection, 'forward' | 'inverse'>): Pick<Projection, 'forward' | 'inverse'> {
  return {
    forward: (position) => {
      const place = forward(position);
      return place && { x: -place.x, y: -place.y };
    },
    inverse: ({ x, y }) => inverse({ x: -x, y: -y }),
  };
}

/** The library throws, or answers something that is not finite, where there is no such place. */
function placeOrNull(convert: (place: Planar) => Planar, x: number, y: number): Planar | null {
  if (!Number.isFinite(x) || !Number.isFinite(y)) return null;
  try {
    const found = convert({ x, y });
    return Number.isFinite(found.x) && Number.isFinite(found.y) ? { x: found.x, y: found.y } : null;
  } catch {
    return null;
  }
}

const HALF_TURN = 180;

/** Grids that count longitude from 0 to 360 are brought back to ±180. */
function asPosition(place: Planar | null): Position | null {
  if (!place) return null;
  const turns = Math.abs(place.x) > HALF_TURN ? Math.round(place.x / (2 * HALF_TURN)) : 0;
  return { lon: place.x - turns * 2 * HALF_TURN, lat: place.y };
}
