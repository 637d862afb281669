import type { CrsReference } from '../../geodesy/wgs84.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { crsFromEsriText, esriText } from './esri-projection-text.ts';
import { type GeoKeys, KEY, USER_DEFINED } from './geo-keys.ts';
import { geographicFromKeys } from './proj-datum.ts';
import { projectedFromKeys, utmCode } from './proj-from-keys.ts';

/** The CRS of a file's cells and whether its coordinates are degrees. */
export interface FileCrs {
  readonly reference: CrsReference;
  readonly geographic: boolean;
}

/** Model types. Source: OGC GeoTIFF 1.1 (19-008r4), section 7.1.1. */
const PROJECTED = 1;
const GEOCENTRIC = 3;

/**
 * Whether the keys state a CRS: a projection by code or written out, or a geographic CRS in a file that does not call itself
 * projected. A name alone, or the datum of a projection that is not stated, leaves it to the user.
 */
export function statesCrs(keys: GeoKeys): boolean {
  if (keys.number(KEY.ModelType) === GEOCENTRIC || keys.code(KEY.ProjectedCrs) !== undefined) return true;
  if (statesProjection(keys) || esriText(keys) !== undefined) return true;
  if (keys.number(KEY.ModelType) === PROJECTED) return false;
  return keys.code(KEY.GeodeticCrs) !== undefined || keys.number(KEY.GeodeticCrs) === USER_DEFINED;
}

/**
 * A projected code comes first, then a projection written out in the file's keys or in its citation, then a geographic
 * code. The model type key is not needed: files without it, or with it user-defined, are common.
 */
export async function crsFromKeys(keys: GeoKeys): Promise<FileCrs> {
  if (keys.number(KEY.ModelType) === GEOCENTRIC) {
    refuse({ code: 'crs', where: 'ModelType', found: 'geocentric coordinates', expected: 'a map grid or degrees' });
  }
  const projected = keys.code(KEY.ProjectedCrs);
  if (projected !== undefined) return { reference: { kind: 'epsg', code: projected }, geographic: false };
  if (statesProjection(keys)) {
    const utm = utmCode(keys);
    const reference: CrsReference = utm === undefined ? await projectedFromKeys(keys) : { kind: 'epsg', code: utm };
    return { reference, geographic: false };
  }
  const text = esriText(keys);
  if (text !== undefined) return crsFromEsriText(text);
  return { reference: await geographicReference(keys), geographic: true };
}

/** Source: EPSG registry, geographic CRSs without a datum that were deprecated for it. */
const UNKNOWN_DATUMS: Readonly<Record<number, string>> = {
  4019: 'unknown datum on the GRS 1980 ellipsoid',
  4030: 'unknown datum on the WGS 84 ellipsoid',
};

function statesProjection(keys: GeoKeys): boolean {
  return keys.code(KEY.ProjectionMethod) !== undefined || keys.code(KEY.Projection) !== undefined;
}

async function geographicReference(keys: GeoKeys): Promise<CrsReference> {
  if (keys.number(KEY.ModelType) === PROJECTED) refuseCrs(keys);
  const geodetic = keys.code(KEY.GeodeticCrs);
  const unknown = geodetic === undefined ? undefined : UNKNOWN_DATUMS[geodetic];
  if (unknown !== undefined) {
    const definition = `+proj=longlat ${await geographicFromKeys(keys)} +no_defs`;
    return { kind: 'proj', definition, title: unknown };
  }
  if (geodetic !== undefined) return { kind: 'epsg', code: geodetic };
  if (keys.number(KEY.GeodeticCrs) === USER_DEFINED) {
    const definition = `+proj=longlat ${await geographicFromKeys(keys)} +no_defs`;
    return { kind: 'proj', definition, title: keys.text(KEY.GeodeticCitation) ?? 'user-defined geographic CRS' };
  }
  return refuseCrs(keys);
}

function refuseCrs(keys: GeoKeys): never {
  const named = keys.text(KEY.Citation) ?? keys.text(KEY.ProjectedCitation) ?? keys.text(KEY.GeodeticCitation);
  return refuse({
    code: 'crs',
    where: 'ProjectedCrs',
    found: named === undefined ? 'no coordinate reference system' : `only the name "${named.slice(0, 120)}"`,
    expected: 'an EPSG code or a projection written out in the file',
  });
}
