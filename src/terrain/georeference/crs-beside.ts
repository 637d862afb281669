import type { CrsReference } from '../../geodesy/wgs84.ts';
import { FileRefusal, refuse } from '../bytes/file-refusal.ts';
import { crsFromEsriText } from './esri-projection-text.ts';

const MOST_LETTERS = 200_000;
const ENTITIES: Readonly<Record<string, string>> = { quot: '"', apos: "'", lt: '<', gt: '>', amp: '&' };

/**
 * The CRS in a projection file or in the metadata that GDAL writes beside a picture; null where neither states one. An EPSG code
 * that stands for the whole CRS comes before its written-out form, which is read as Esri writes it.
 */
export function crsBeside(name: string, text: string): CrsReference | null {
  const wkt = (/\.xml$/i.test(name) ? fromMetadata(text) : text)?.replace(/^\uFEFF/, '').trim() ?? '';
  if (wkt === '' || wkt.length > MOST_LETTERS) return null;
  const code = /^EPSG:(\d{4,6})$/i.exec(wkt)?.[1] ?? codeOfWhole(wkt);
  return code === null ? fromText(wkt) : { kind: 'epsg', code: Number(code) };
}

function fromText(wkt: string): CrsReference {
  try {
    return crsFromEsriText(wkt).reference;
  } catch (error) {
    if (!(error instanceof FileRefusal)) throw error;
    const expected = `${error.problem.expected}; leave this file out to be asked for the EPSG code`;
    return refuse({ code: 'crs', where: '', found: error.problem.found, expected });
  }
}

/** The text of the element SRS. Source: GDAL, "Persistent Auxiliary Metadata" (PAMDataset, SRS). */
function fromMetadata(xml: string): string | null {
  const inside = /<SRS\b[^>]*>([^<]*)<\/SRS>/.exec(xml)?.[1];
  return inside?.replaceAll(/&(quot|apos|lt|gt|amp);/g, (_, name: string) => ENTITIES[name] ?? '') ?? null;
}

/** The code that closes the text belongs to the whole, any other to a part. Source: OGC 01-009 and OGC 18-010r7 (WKT 1 and 2). */
function codeOfWhole(wkt: string): string | null {
  return /(?:AUTHORITY|ID)\["EPSG",\s*"?(\d{4,6})"?\]\s*\]$/i.exec(wkt)?.[1] ?? null;
}
