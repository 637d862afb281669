import type { CrsRow, DatumShift } from './crs-table.ts';

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
