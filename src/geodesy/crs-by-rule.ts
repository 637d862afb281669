import type { CrsRow } from './crs-table.ts';

/** A run of codes for neighbouring zones of one datum: code = firstCode + (zone − firstZone). */
interface ZoneRun {
  readonly firstCode: number;
  readonly firstZone: number;
  readonly zones: number;
  readonly datum: string;
  readonly ellipsoid: string;
  readonly hemisphere: 'N' | 'S';
  readonly title: (zone: string) => string;
  readonly shift: string;
  readonly accuracy: number;
}

const utm = (datum: string, hemisphere: 'N' | 'S') => (zone: string) => `${datum} / UTM zone ${zone}${hemisphere}`;
const mga = (datum: string) => (zone: string) => `${datum} / MGA zone ${zone}`;

/** Zones of the Universal Transverse Mercator grid that open DEMs come in. Source: EPSG Geodetic Parameter Dataset v10.076. */
const zoneRuns: readonly ZoneRun[] = [
  run(32601, 1, 60, 'WGS 84', 'N', '+datum=WGS84', 'already WGS 84', 0),
  run(32701, 1, 60, 'WGS 84', 'S', '+datum=WGS84', 'already WGS 84', 0),
  run(25828, 28, 10, 'ETRS89', 'N', '+ellps=GRS80', 'ETRS89 to WGS 84 (1)', 1),
  run(26902, 2, 22, 'NAD83', 'N', '+ellps=GRS80', 'NAD83 to WGS 84 (1)', 4),
  { ...run(28348, 48, 11, 'GDA94', 'S', '+ellps=GRS80', 'GDA94 to WGS 84 (1)', 3), title: mga('GDA94') },
  { ...run(7846, 46, 14, 'GDA2020', 'S', '+ellps=GRS80', 'GDA2020 to WGS 84 (2)', 3), title: mga('GDA2020') },
];

function run(
  firstCode: number,
  firstZone: number,
  zones: number,
  datum: string,
  hemisphere: 'N' | 'S',
  ellipsoid: string,
  shift: string,
  accuracy: number,
): ZoneRun {
  return { firstCode, firstZone, zones, datum, ellipsoid, hemisphere, title: utm(datum, hemisphere), shift, accuracy };
}

/** The row of a code that follows a rule, so that usual files need no table; null for every other code. */
export function crsByRule(code: number): CrsRow | null {
  if (code === WGS84_ROW.code) return WGS84_ROW;
  const found = zoneRuns.find((r) => code >= r.firstCode && code < r.firstCode + r.zones);
  if (!found) return null;
  const zone = found.firstZone + (code - found.firstCode);
  const south = found.hemisphere === 'S' ? ' +south' : '';
  return {
    code,
    name: found.title(String(zone)),
    projection: `+proj=utm +zone=${zone}${south} ${found.ellipsoid}`,
    shift: { name: found.shift, accuracy: found.accuracy, parameters: [] },
    area: null,
  };
}

const WGS84_ROW: CrsRow = {
  code: 4326,
  name: 'WGS 84',
  projection: '+proj=longlat +datum=WGS84',
  shift: { name: 'already WGS 84', accuracy: 0, parameters: [] },
  area: null,
};
