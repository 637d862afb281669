import { deepFreeze } from '../model/freeze.ts';
import type { Outcome } from '../model/problem.ts';
import { shownText } from './clean-text.ts';
import { ImportFault, importFault } from './import-fault.ts';
import { ItemBook } from './import-items.ts';
import { type ImportFormat, type ImportPreview, importLimits } from './import-preview.ts';
import { readGeoJson } from './read-geojson.ts';
import { readGpx } from './read-gpx.ts';
import { readKml } from './read-kml.ts';
import { type CsvStatement, readPointsCsv } from './read-points-csv.ts';
import { textOfBytes } from './text-of-bytes.ts';
import { readXml } from './xml-tree.ts';

export interface ImportFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * What a GPX, KML, GeoJSON or CSV file holds, told by its content and not by its ending. A file that cannot be read as a
 * whole is a problem; a single point or line that cannot carries its own.
 */
export function readImport(file: ImportFile, stated: CsvStatement = { xy: null }): Outcome<ImportPreview> {
  try {
    const book = new ItemBook();
    const format = readInto(book, file, stated);
    if (book.items.length === 0 && book.problems.length === 0) book.leaveOut('', 'a file without points and lines');
    return { ok: true, value: deepFreeze({ file: file.name, format, items: book.items, problems: book.problems }) };
  } catch (reason) {
    if (!(reason instanceof ImportFault)) throw reason;
    return { ok: false, problems: [reason.problem] };
  }
}

function readInto(book: ItemBook, { bytes }: ImportFile, stated: CsvStatement): ImportFormat {
  const { bytes: most } = importLimits;
  if (bytes.length > most) importFault('too-large', '', `${bytes.length} bytes`, `at most ${most} bytes`);
  if (isZip(bytes)) importFault('zipped', '', 'a zipped file, such as KMZ', 'the KML inside it, unpacked');
  const text = textOfBytes(bytes);
  const first = /[^\s\uFEFF]/.exec(text)?.[0] ?? importFault('empty', '', 'an empty file', 'points or lines');
  if (first === '{' || first === '[') {
    readGeoJson(text, book);
    return 'geojson';
  }
  if (first === '<') return readXmlInto(book, text);
  if (text.includes('\u0000')) importFault('wrong-type', '', 'a file that is no text', 'GPX, KML, GeoJSON or CSV');
  readPointsCsv(text, stated, book);
  return 'csv';
}

function readXmlInto(book: ItemBook, text: string): ImportFormat {
  const root = readXml(text);
  if (root.name === 'gpx') {
    readGpx(root, book);
    return 'gpx';
  }
  if (root.name === 'kml') {
    readKml(root, book);
    return 'kml';
  }
  return importFault('wrong-type', `line ${root.line}`, `XML of ${shownText(root.name)}`, 'GPX or KML');
}

/** Whether the bytes begin as a ZIP archive does: a local file header, or the end of an empty archive. */
function isZip(bytes: Uint8Array): boolean {
  const [p, k, third, fourth] = bytes;
  return p === 0x50 && k === 0x4b && ((third === 3 && fourth === 4) || (third === 5 && fourth === 6));
}
