import { shownText } from './clean-text.ts';
import type { ItemBook } from './import-items.ts';
import { importFault } from './import-preview.ts';
import type { GivenPlace } from './read-place.ts';
import { childrenOf, childText, type XmlElement } from './xml-tree.ts';

/** The standard's namespace and those that came before it; some programs write none. */
const SPACE = /^$|\/kml\/2\.\d$/;

/**
 * Points and lines of the placemarks of a KML file, also inside documents and folders. Nothing that a file links to is fetched.
 * Source: OGC KML 2.2.0, Open Geospatial Consortium 07-147r2, 2008, chapters 9 and 10.
 */
export function readKml(root: XmlElement, book: ItemBook): void {
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
