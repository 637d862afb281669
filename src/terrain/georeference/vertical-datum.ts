import { type GeoKeys, KEY } from './geo-keys.ts';
import { registeredVertical } from './vertical-unit.ts';

/** Codes from before the registry had any; names as the registry writes them. Source: GeoTIFF 1.0, 1995, section 6.3.4.1. */
const FIRST_CODES: Readonly<Record<number, string>> = {
  5101: 'ODN height',
  5102: 'NGVD29 height',
  5103: 'NAVD88 height',
  5104: 'Yellow Sea 1956 height',
  5105: 'Baltic Sea height',
  5106: 'Caspian Sea height',
};

/** The registry names heights above one zero once for each unit: "NAVD88 height", "NAVD88 height (ftUS)". */
const UNIT_AT_END = /\s*\((m|ft|ftUS|ft\(Br36\))\)\s*$/;

/**
 * Above what the heights of a file count, without their unit: by the file's vertical code, by the vertical part of its
 * compound code, or in its own words; null where it says nothing.
 */
export async function statedVerticalDatum(keys: GeoKeys): Promise<string | null> {
  const registered = await registeredVertical(keys);
  const code = keys.code(KEY.VerticalCrs);
  const named = registered?.name ?? (code === undefined ? undefined : FIRST_CODES[code]);
  const stated = named ?? keys.text(KEY.VerticalCitation)?.trim();
  if (stated !== undefined && stated !== '') return stated.replace(UNIT_AT_END, '');
  return code === undefined ? null : `EPSG:${code}`;
}
