import type { CrsReference } from '../../geodesy/wgs84.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { type GeoKeys, KEY } from './geo-keys.ts';

/** A projection string that some programs put into a citation instead of codes. */
const MARK = 'ESRI PE String = ';

export function esriText(keys: GeoKeys): string | undefined {
  for (const key of [KEY.ProjectedCitation, KEY.Citation, KEY.GeodeticCitation]) {
    const text = keys.text(key);
    const at = text?.indexOf(MARK) ?? -1;
    if (text !== undefined && at >= 0) return text.slice(at + MARK.length).trim();
  }
  return undefined;
}

export interface EsriCrs {
  readonly reference: CrsReference;
  readonly geographic: boolean;
}

/** Ellipsoid and shift by the datum name that such strings use. Shifts as for the geographic codes. */
const DATUMS: Readonly<Record<string, string>> = {
  D_WGS_1984: '+datum=WGS84',
  D_North_American_1983: '+datum=NAD83',
  D_ETRS_1989: '+ellps=GRS80 +towgs84=0,0,0',
  D_GDA_1994: '+ellps=GRS80 +towgs84=0,0,0',
  GDA2020: '+ellps=GRS80 +towgs84=0,0,0',
  D_GDA_2020: '+ellps=GRS80 +towgs84=0,0,0',
  D_NZGD_2000: '+ellps=GRS80 +towgs84=0,0,0',
  D_NAD_1983_2011: '+ellps=GRS80 +towgs84=0,0,0',
  D_NAD_1983_HARN: '+ellps=GRS80 +towgs84=0,0,0',
  D_NAD_1983_NSRS2007: '+ellps=GRS80 +towgs84=0,0,0',
  D_SIRGAS_2000: '+ellps=GRS80 +towgs84=0,0,0',
};

const METHODS: Readonly<Record<string, string>> = {
  Transverse_Mercator: 'tmerc',
  Lambert_Conformal_Conic: 'lcc',
  Albers: 'aea',
  Lambert_Azimuthal_Equal_Area: 'laea',
  Double_Stereographic: 'sterea',
  Cassini: 'cass',
};

const PARAMETERS: Readonly<Record<string, string>> = {
  Central_Meridian: 'lon_0',
  Longitude_Of_Center: 'lon_0',
  Latitude_Of_Origin: 'lat_0',
  Latitude_Of_Center: 'lat_0',
  Standard_Parallel_1: 'lat_1',
  Standard_Parallel_2: 'lat_2',
  Scale_Factor: 'k_0',
  False_Easting: 'x_0',
  False_Northing: 'y_0',
};

/** Reads a projection string: UTM zones become EPSG codes, other known projections a proj string. */
export function crsFromEsriText(whole: string): EsriCrs {
  // A vertical system may follow, with a unit of its own.
  const text = whole.split('VERTCS[')[0] ?? whole;
  const meridian = Number(/PRIMEM\["[^"]*",\s*([-+.\deE]+)/.exec(text)?.[1] ?? 0);
  if (meridian !== 0) refuseText(`a prime meridian at ${meridian} degrees`, 'Greenwich');
  const name = /^(?:PROJCS|GEOGCS)\["([^"]*)"/.exec(text)?.[1];
  if (name === undefined) refuseText(text, 'a PROJCS or GEOGCS');
  const utm = utmFromName(name);
  if (utm !== undefined) return { reference: { kind: 'epsg', code: utm }, geographic: false };
  const datum = DATUMS[/DATUM\["([^"]*)"/.exec(text)?.[1] ?? ''] ?? refuseText(text, 'a datum that the planner knows');
  if (text.startsWith('GEOGCS')) {
    const definition = `+proj=longlat ${datum} +no_defs`;
    return { reference: { kind: 'proj', definition, title: name }, geographic: true };
  }
  const metresPerUnit = gridUnit(text);
  const definition = `${projection(text, metresPerUnit)} ${datum} +to_meter=${metresPerUnit} +no_defs`;
  return { reference: { kind: 'proj', definition, title: name }, geographic: false };
}

function utmFromName(name: string): number | undefined {
  const match = /^(NAD_1983|WGS_1984|ETRS_1989)_UTM_Zone_(\d{1,2})([NS])$/.exec(name);
  if (match === null) return undefined;
  const [, datum, digits, side] = match;
  const zone = Number(digits);
  if (zone < 1 || zone > 60) return undefined;
  if (datum === 'WGS_1984') return (side === 'N' ? 32600 : 32700) + zone;
  if (side !== 'N') return undefined;
  if (datum === 'NAD_1983') return zone <= 23 ? 26900 + zone : undefined;
  return zone >= 28 && zone <= 38 ? 25800 + zone : undefined;
}

function projection(text: string, metresPerUnit: number): string {
  const method = /PROJECTION\["([^"]*)"/.exec(text)?.[1] ?? '';
  const proj = METHODS[method] ?? refuseText(method, 'a projection that the planner knows');
  const parts = [`+proj=${proj}`];
  for (const [, name = '', digits = ''] of text.matchAll(/PARAMETER\["([^"]*)",\s*([-+.\deE]+)\]/g)) {
    const parameter = PARAMETERS[name] ?? refuseText(name, 'a parameter that the planner knows');
    const value = Number(digits);
    if (!Number.isFinite(value)) refuseText(digits, 'a number');
    const length = parameter === 'x_0' || parameter === 'y_0';
    parts.push(`+${parameter}=${length ? value * metresPerUnit : value}`);
  }
  return parts.join(' ');
}

/** The unit of the grid stands last in the string, after that of the angles. */
function gridUnit(text: string): number {
  const units = [...text.matchAll(/UNIT\["[^"]*",\s*([-+.\deE]+)/g)];
  const size = Number(units.at(-1)?.[1]);
  return Number.isFinite(size) && size > 0 ? size : refuseText(text, 'a unit of length');
}

function refuseText(found: string, expected: string): never {
  return refuse({ code: 'crs', where: 'ProjectedCitation', found: found.slice(0, 120) || 'nothing', expected });
}
