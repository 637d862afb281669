import type { Outcome } from '../../units/outcome.ts';
import { deepFreeze } from '../model/plan-draft.ts';
import { shownText } from './clean-text.ts';
import { ItemBook } from './import-items.ts';
import { ImportFault, type ImportFormat, type ImportPreview, importFault, importLimits } from './import-preview.ts';
import { readGeoJson } from './read-geojson.ts';
import { readGpx } from './read-gpx.ts';
import { readKml } from './read-kml.ts';
import { type CsvStatement, readPointsCsv } from './read-points-csv.ts';
import { readXml } from './xml-tree.ts';

const DECLARED = /^<\?xml[^>]{0,200}?encoding\s*=\s*["']([A-Za-z0-9._-]{1,40})["']/;
/** Encodings that an XML declaration may name besides UTF-8; all of them are supersets of ASCII. */
const KNOWN: ReadonlySet<string> = new Set(['iso-8859-1', 'iso-8859-15', 'windows-1252', 'us-ascii', 'utf-8']);

/**
 * The text of a file: UTF-8, UTF-16 with its byte order mark, or the encoding that an XML declaration names.
 *
 * Nothing is guessed: bytes that do not fit are refused, not replaced.
 */
function textOfBytes(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return decoded(bytes, 'utf-16le');
  if (first === 0xfe && second === 0xff) return decoded(bytes, 'utf-16be');
  const declared = declaredEncoding(bytes) ?? 'utf-8';
  if (!KNOWN.has(declared)) {
    importFault('wrong-encoding', '', `the encoding ${declared}`, 'UTF-8, UTF-16 with its mark, or Latin-1');
  }
  return decoded(bytes, declared);
}

function declaredEncoding(bytes: Uint8Array): string | null {
  const head = String.fromCharCode(...bytes.subarray(0, 256)).replace(/^\u00ef\u00bb\u00bf/, '');
  return DECLARED.exec(head)?.[1]?.toLowerCase() ?? null;
}

function decoded(bytes: Uint8Array, encoding: string): string {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return importFault(
      'wrong-encoding',
      '',
      `bytes that are not ${encoding.toUpperCase()}`,
      'a text file, best in UTF-8',
    );
  }
}

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
