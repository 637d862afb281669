import { crsFromTable } from '../../geodesy/crs-table.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { type GeoKeys, KEY } from './geo-keys.ts';

/**
 * Ellipsoid and shift of a geographic CRS as proj parameters, by EPSG code. Source: PROJ 9.1 database (EPSG v10.076);
 * shifts of the modern continental datums are null to within about a metre.
 */
const GEOGRAPHIC: Readonly<Record<number, string>> = {
  4326: '+datum=WGS84',
  4269: '+datum=NAD83',
  4267: '+ellps=clrk66 +towgs84=-8,160,176',
  4258: '+ellps=GRS80 +towgs84=0,0,0',
  4167: '+ellps=GRS80 +towgs84=0,0,0',
  4283: '+ellps=GRS80 +towgs84=0,0,0',
  7844: '+ellps=GRS80 +towgs84=0,0,0',
  4148: '+ellps=WGS84 +towgs84=0,0,0',
  4170: '+ellps=GRS80 +towgs84=0,0,0',
  4171: '+ellps=GRS80 +towgs84=0,0,0',
  4152: '+ellps=GRS80 +towgs84=0,0,0',
  4617: '+ellps=GRS80 +towgs84=0,0,0',
  4619: '+ellps=GRS80 +towgs84=0,0,0',
  4674: '+ellps=GRS80 +towgs84=0,0,0',
  4612: '+ellps=GRS80 +towgs84=0,0,0',
  6668: '+ellps=GRS80 +towgs84=0,0,0',
  4759: '+ellps=GRS80 +towgs84=0,0,0',
  6318: '+ellps=GRS80 +towgs84=0,0,0',
  4322: '+ellps=WGS72 +towgs84=0,0,4.5,0,0,0.554,0.2263',
  // Unknown datums on the two ellipsoids of today: within a metre or two of WGS 84, which the note on the shift leaves open.
  4019: '+ellps=GRS80 +towgs84=0,0,0',
  4030: '+ellps=WGS84 +towgs84=0,0,0',
};

/** Datum codes of the same, for files that name the datum only. */
const DATUM_TO_GEOGRAPHIC: Readonly<Record<number, number>> = {
  6326: 4326,
  6269: 4269,
  6267: 4267,
  6258: 4258,
  6167: 4167,
  6283: 4283,
  1168: 7844,
  6148: 4148,
  6170: 4170,
  6171: 4171,
  6152: 4152,
  6674: 4674,
  6612: 4612,
  6322: 4322,
};

/** Ellipsoids by EPSG code: semi-major axis, m, and inverse flattening. Source: EPSG registry. */
const ELLIPSOIDS: Readonly<Record<number, readonly [number, number]>> = {
  7001: [6377563.396, 299.3249646],
  7004: [6377397.155, 299.1528128],
  7008: [6378206.4, 294.978698213898],
  7012: [6378249.145, 293.465],
  7019: [6378137, 298.257222101],
  7022: [6378388, 297],
  7024: [6378245, 298.3],
  7030: [6378137, 298.257223563],
  7043: [6378135, 298.26],
};

/** The geographic CRS under a projection, as proj parameters: one known here, one of the registry, or one written out. */
export async function geographicFromKeys(keys: GeoKeys): Promise<string> {
  const code = keys.code(KEY.GeodeticCrs) ?? DATUM_TO_GEOGRAPHIC[keys.code(KEY.GeodeticDatum) ?? 0];
  const known = code === undefined ? undefined : GEOGRAPHIC[code];
  if (known !== undefined) return known + meridian(keys);
  const registered = code === undefined ? null : await registeredDatum(code);
  if (registered !== null) return registered;
  const shift = keys.numbers(KEY.ToWgs84);
  if (shift === undefined || (shift.length !== 3 && shift.length !== 7)) {
    refuse({
      code: 'datum',
      where: 'GeodeticCrs',
      found: code === undefined ? (keys.text(KEY.GeodeticCitation) ?? 'no datum') : `EPSG:${code}`,
      expected: 'a datum that the planner knows, or its shift to WGS 84 in the file',
    });
  }
  return `${ellipsoid(keys)} +towgs84=${shift.join(',')}${meridian(keys)}`;
}

/** Ellipsoid, meridian and shift of a geographic CRS of the registry. */
async function registeredDatum(code: number): Promise<string | null> {
  const row = await crsFromTable(code);
  if (row === null || !row.projection.startsWith('+proj=longlat')) return null;
  const words = row.projection.replace('+proj=longlat', '').trim();
  const { parameters } = row.shift;
  return parameters.length === 0 ? words : `${words} +towgs84=${parameters.join(',')}`;
}

function ellipsoid(keys: GeoKeys): string {
  const major = keys.number(KEY.SemiMajorAxis);
  const inverse = keys.number(KEY.InverseFlattening);
  const minor = keys.number(KEY.SemiMinorAxis);
  if (major !== undefined && inverse !== undefined) return inverse === 0 ? `+R=${major}` : `+a=${major} +rf=${inverse}`;
  if (major !== undefined && minor !== undefined) return `+a=${major} +b=${minor}`;
  const code = keys.code(KEY.Ellipsoid);
  const known = code === undefined ? undefined : ELLIPSOIDS[code];
  if (known !== undefined) return `+a=${known[0]} +rf=${known[1]}`;
  return refuse({
    code: 'datum',
    where: 'Ellipsoid',
    found: code === undefined ? 'no ellipsoid' : `ellipsoid ${code}`,
    expected: 'an ellipsoid by code or by its axes',
  });
}

const GREENWICH = 8901;

function meridian(keys: GeoKeys): string {
  const stated = keys.number(KEY.PrimeMeridianLongitude);
  const code = keys.code(KEY.PrimeMeridian) ?? GREENWICH;
  if (stated === undefined && code !== GREENWICH) {
    refuse({
      code: 'datum',
      where: 'PrimeMeridian',
      found: `meridian ${code}`,
      expected: 'its longitude, or Greenwich',
    });
  }
  const longitude = stated ?? 0;
  return longitude === 0 ? '' : ` +pm=${longitude}`;
}
