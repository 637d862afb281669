import type { Outcome } from '../../units/outcome.ts';
import { deepFreeze } from '../model/plan-draft.ts';
import { shownText } from './clean-text.ts';
import { ItemBook } from './import-items.ts';
import { ImportFault, type ImportFormat, type ImportPreview, importFault, importLimits } from './import-preview.ts';
import { readGeoJson } from './read-geojson.ts';
import type { GivenPlace } from './read-place.ts';
import { type CsvStatement, readPointsCsv } from './read-points-csv.ts';
import { childrenOf, childText, readXml, type XmlElement } from './xml-tree.ts';

/** The standard's namespace and those that came before it; some programs write none. */
const SPACE = /^$|\/kml\/2\.\d$/;

/**
 * Points and lines of the placemarks of a KML file, also inside documents and folders. Nothing that a file links to is fetched.
 * Source: OGC KML 2.2.0, Open Geospatial Consortium 07-147r2, 2008, chapters 9 and 10.
 */
function readKml(root: XmlElement, book: ItemBook): void {
  if (!SPACE.test(root.space)) {
    importFault('unknown-version', `line ${root.line}`, shownText(root.space), 'the namespace of KML 2.2');
  }
  readContainer(root, book);
}

function readContainer(container: XmlElement, book: ItemBook): void {
  for (const child of container.children) {
    if (child.name === 'Document' || child.name === 'Folder') readContainer(child, book);
    else if (child.name === 'Placemark') readPlacemark(child, book);
    else if (child.name === 'NetworkLink' || child.name.endsWith('Overlay')) leaveOut(child, book);
  }
}

const GEOMETRIES: ReadonlySet<string> = new Set([
  'Point',
  'LineString',
  'LinearRing',
  'Polygon',
  'MultiGeometry',
  'Model',
  'Track',
  'MultiTrack',
]);

function readPlacemark(placemark: XmlElement, book: ItemBook): void {
  const shapes = placemark.children.filter(({ name }) => GEOMETRIES.has(name)).flatMap(simpleShapes);
  if (shapes.length === 0) book.leaveOut(`line ${placemark.line}, Placemark`, 'a placemark without a place');
  const name = childText(placemark, 'name');
  const note = childText(placemark, 'description');
  shapes.forEach((shape, index) => {
    const path = `line ${shape.line}, ${shape.name}`;
    const ownName = index === 0 || name === '' ? name : `${name} (${index + 1})`;
    const given = { name: ownName, note, type: '', path, places: placesOf(shape) };
    if (shape.name === 'Point') readPoint(given, book);
    else if (shape.name === 'LineString') book.line(given);
    else leaveOut(shape, book);
  });
}

function readPoint(given: Parameters<ItemBook['point']>[0], book: ItemBook): void {
  if (given.places.length === 1) book.point(given);
  else book.leaveOut(given.path, `${given.places.length} places`, 'one place, as longitude,latitude without blanks');
}

function simpleShapes(shape: XmlElement): readonly XmlElement[] {
  if (shape.name !== 'MultiGeometry') return [shape];
  return shape.children.filter(({ name }) => GEOMETRIES.has(name)).flatMap(simpleShapes);
}

/** Longitude, latitude and perhaps altitude between commas, places between blanks; only an absolute altitude is a height. */
function placesOf(shape: XmlElement): readonly GivenPlace[] {
  const absolute = childText(shape, 'altitudeMode') === 'absolute';
  const text = childrenOf(shape, 'coordinates')[0]?.text.trim() ?? '';
  if (text === '') return [];
  return text.split(/\s+/).map((place) => {
    const [lon, lat, height, ...rest] = place.split(',');
    if (rest.length > 0) return { lon: place, lat };
    return absolute ? { lon, lat, height } : { lon, lat };
  });
}

function leaveOut(element: XmlElement, book: ItemBook): void {
  book.leaveOut(`line ${element.line}, ${element.name}`, shownText(element.name));
}

/** 1.0 has the same waypoints, routes and tracks; some programs write no namespace at all. */
const SPACES: ReadonlySet<string> = new Set([
  'http://www.topografix.com/GPX/1/1',
  'http://www.topografix.com/GPX/1/0',
  '',
]);

/**
 * Waypoints, routes and tracks of a GPX file; each segment of a track is a line of its own.
 * Source: GPX 1.1 Schema Documentation, TopoGrafix, 2004.
 */
function readGpx(root: XmlElement, book: ItemBook): void {
  if (!SPACES.has(root.space)) {
    importFault('unknown-version', `line ${root.line}`, shownText(root.space), 'the namespace of GPX 1.1 or 1.0');
  }
  for (const child of root.children) {
    if (child.space !== root.space) continue;
    if (child.name === 'wpt') book.point({ ...aboutOf(child), places: [placeOf(child)] });
    if (child.name === 'rte') book.line({ ...aboutOf(child), places: childrenOf(child, 'rtept').map(placeOf) });
    if (child.name === 'trk') readTrack(child, book);
  }
}

function readTrack(track: XmlElement, book: ItemBook): void {
  const about = aboutOf(track);
  childrenOf(track, 'trkseg').forEach((segment, index) => {
    const name = index === 0 || about.name === '' ? about.name : `${about.name} (${index + 1})`;
    const path = `line ${segment.line}, trkseg`;
    book.line({ ...about, name, path, places: childrenOf(segment, 'trkpt').map(placeOf) });
  });
}

function aboutOf(element: XmlElement) {
  return {
    name: childText(element, 'name'),
    note: childText(element, 'desc') || childText(element, 'cmt'),
    type: childText(element, 'type'),
    path: `line ${element.line}, ${element.name}`,
  };
}

function placeOf(element: XmlElement): GivenPlace {
  const height = childText(element, 'ele');
  return { lon: element.attributes.get('lon'), lat: element.attributes.get('lat'), height };
}

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
