import { type JsonObject, type JsonValue, parseJson } from '../file/json-text.ts';
import { describe } from '../model/path.ts';
import type { ItemBook } from './import-items.ts';
import { ImportFault, importFault, importLimits } from './import-preview.ts';
import type { GivenPlace } from './read-place.ts';

/** The longest list is a line with all positions; each is a list of three numbers at most. */
const limits = { characters: importLimits.bytes, depth: 32, listLength: importLimits.positions, values: 1_000_000 };

const WGS84 = /CRS84|EPSG:+4326|EPSG::4326/i;

interface Placed {
  readonly path: string;
  readonly properties: JsonValue | undefined;
}

/**
 * Points and lines of GeoJSON that is no plan; several in one feature become items of their own.
 * Source: RFC 7946, The GeoJSON Format, IETF, 2016.
 */
export function readGeoJson(text: string, book: ItemBook): void {
  const json = parseJson(text, limits);
  if (!json.ok) throw new ImportFault(json.problems[0] ?? neverEmpty());
  const root = json.value;
  if (!isObject(root)) importFault('wrong-type', '', describe(root), 'a GeoJSON object');
  if (Object.hasOwn(root, 'rillwright')) importFault('is-a-plan', '', 'a plan file', 'to be opened, not imported');
  const crs = root.crs === undefined || root.crs === null ? '' : JSON.stringify(root.crs);
  if (crs !== '' && !WGS84.test(crs)) {
    importFault('wrong-crs', 'crs', describe(crs), 'longitude and latitude on WGS 84, as RFC 7946 has it');
  }
  readObject(root, { path: '', properties: undefined }, book);
}

function neverEmpty(): never {
  throw new Error('expected a problem of text that is no JSON, found none');
}

function readObject(value: JsonValue | undefined, at: Placed, book: ItemBook): void {
  if (!isObject(value)) book.leaveOut(at.path, describe(value));
  else if (value.type === 'FeatureCollection') readEach(value.features, { ...at, path: joined(at, 'features') }, book);
  else if (value.type === 'GeometryCollection') {
    readEach(value.geometries, { ...at, path: joined(at, 'geometries') }, book);
  } else if (value.type === 'Feature') {
    readObject(value.geometry, { path: joined(at, 'geometry'), properties: value.properties }, book);
  } else readGeometry(value, at, book);
}

function readEach(list: JsonValue | undefined, at: Placed, book: ItemBook): void {
  if (!isList(list)) {
    book.leaveOut(at.path, describe(list), 'a list');
    return;
  }
  list.forEach((value, index) => {
    readObject(value, { ...at, path: `${at.path}[${index}]` }, book);
  });
}

/** What one geometry holds: points or lines, each with its coordinates. */
interface Shapes {
  readonly kind: 'point' | 'line';
  readonly each: readonly (readonly GivenPlace[])[];
}

function readGeometry(geometry: JsonObject, at: Placed, book: ItemBook): void {
  const shapes = shapesOf(geometry.type, geometry.coordinates);
  if (shapes === null) {
    book.leaveOut(at.path, describe(geometry.type));
    return;
  }
  const about = aboutOf(at.properties);
  const path = joined(at, 'coordinates');
  shapes.each.forEach((places, index) => {
    book[shapes.kind]({ ...about, name: numbered(about.name, index), path, places });
  });
}

function shapesOf(type: JsonValue | undefined, coordinates: JsonValue | undefined): Shapes | null {
  if (!isList(coordinates)) return null;
  switch (type) {
    case 'Point':
      return { kind: 'point', each: [[placeOf(coordinates)]] };
    case 'MultiPoint':
      return { kind: 'point', each: coordinates.map((place) => [placeOf(place)]) };
    case 'LineString':
      return { kind: 'line', each: [coordinates.map(placeOf)] };
    case 'MultiLineString':
      return { kind: 'line', each: coordinates.map((line) => (isList(line) ? line.map(placeOf) : [])) };
    default:
      return null;
  }
}

function placeOf(value: JsonValue): GivenPlace {
  if (!isList(value)) return { lon: value, lat: value };
  const [lon, lat, height] = value;
  return { lon, lat, height };
}

function aboutOf(properties: JsonValue | undefined) {
  return {
    name: wordOf(properties, ['name', 'Name', 'NAME', 'title', 'label']),
    note: wordOf(properties, ['note', 'desc', 'description', 'Description']),
    type: wordOf(properties, ['role', 'type']),
  };
}

/** The first of several members that is a text or a number. */
function wordOf(properties: JsonValue | undefined, keys: readonly string[]): string {
  if (!isObject(properties)) return '';
  for (const key of keys) {
    const value = Object.hasOwn(properties, key) ? properties[key] : undefined;
    if (typeof value === 'string' && value.trim() !== '') return value;
    if (typeof value === 'number') return String(value);
  }
  return '';
}

function numbered(name: string, index: number): string {
  return index === 0 || name === '' ? name : `${name} (${index + 1})`;
}

function joined({ path }: Placed, key: string): string {
  return path === '' ? key : `${path}.${key}`;
}

function isList(value: JsonValue | undefined): value is readonly JsonValue[] {
  return Array.isArray(value);
}

function isObject(value: JsonValue | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
