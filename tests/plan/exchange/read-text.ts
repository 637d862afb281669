import { readFileSync } from 'node:fs';
import type { ImportPreview } from '../../../src/plan/exchange/import-preview.ts';
import { readImport } from '../../../src/plan/exchange/read-import.ts';
import type { Problem } from '../../../src/units/outcome.ts';

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export function sample(name: string): Uint8Array {
  return readFileSync(new URL(`samples/${name}`, import.meta.url));
}

/** The preview of a file that a test needs to be readable. */
export function previewOf(given: string | Uint8Array, ...rest: [Parameters<typeof readImport>[1]?]): ImportPreview {
  const bytes = typeof given === 'string' ? bytesOf(given) : given;
  const read = readImport({ name: 'made for a test', bytes }, ...rest);
  if (!read.ok) throw new Error(`the test's file was refused: ${JSON.stringify(read.problems)}`);
  return read.value;
}

/** What is wrong with a file that cannot be read as a whole. */
export function refusalOf(given: string | Uint8Array): Problem {
  const read = readImport({ name: 'made for a test', bytes: typeof given === 'string' ? bytesOf(given) : given });
  const [problem] = read.ok ? [] : read.problems;
  if (problem === undefined) throw new Error(`expected a refusal, found ${JSON.stringify(read).slice(0, 300)}`);
  return problem;
}

/** Kind, name and coordinates of each item, in order. */
export function placesIn(preview: ImportPreview): unknown[] {
  return preview.items.map(({ kind, name, positions }) => [kind, name, positions.map(({ lon, lat }) => [lon, lat])]);
}

/** A GPX 1.1 file around some elements. */
export const gpxOf = (body: string): string =>
  `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">${body}</gpx>`;

/** A KML 2.2 file around some elements. */
export const kmlOf = (body: string): string =>
  `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document>${body}</Document></kml>`;
