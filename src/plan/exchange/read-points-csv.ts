import { shownText } from './clean-text.ts';
import { type CsvRow, csvRows } from './csv-rows.ts';
import { importFault } from './import-fault.ts';
import type { ItemBook } from './import-items.ts';
import { numberOf } from './read-place.ts';

/** How a heading may be called, units and case aside; common practice, no source. */
const HEADINGS = {
  lon: ['lon', 'lng', 'long', 'longitude'],
  lat: ['lat', 'latitude'],
  x: ['x'],
  y: ['y'],
  name: ['name', 'point', 'title', 'label', 'id'],
  note: ['note', 'notes', 'desc', 'description', 'comment'],
  type: ['role', 'type'],
  height: ['ele', 'elevation', 'height', 'altitude', 'alt', 'gps_height'],
} as const;

type Heading = keyof typeof HEADINGS;

const DELIMITERS = [';', '\t', ','] as const;

/** What the user states about a table whose headings do not say it. */
export interface CsvStatement {
  /** Columns x and y hold longitude and latitude in degrees; null leaves them refused. */
  readonly xy: 'lon-lat' | null;
}

/** Points of a table with a heading, one a row, between semicolons, tabs or commas; decimals with a point or a comma. */
export function readPointsCsv(text: string, stated: CsvStatement, book: ItemBook): void {
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const [head, ...rows] = csvRows(body, delimiterOf(body));
  if (head === undefined) importFault('not-csv', '', 'an empty file', 'a table with a heading');
  const columns = columnsOf(head, stated);
  for (const row of rows) {
    const field = (heading: Heading) => row.fields[columns[heading] ?? -1] ?? '';
    const [lonName, latName] = columns.lon === undefined ? (['x', 'y'] as const) : (['lon', 'lat'] as const);
    book.point({
      name: field('name'),
      note: field('note'),
      type: field('type'),
      path: `line ${row.line}`,
      places: [{ lon: decimal(field(lonName)), lat: decimal(field(latName)), height: decimal(field('height')) }],
    });
  }
}

/** How much of a heading is looked at to tell its delimiter. */
const HEADING_LOOK = 10_000;

/** The delimiter that the first line with text has most of; a comma where it has none. */
function delimiterOf(text: string): string {
  const start = text.search(/\S/);
  const first = text.slice(start, start + HEADING_LOOK).split(/[\r\n]/)[0] ?? '';
  const counts = DELIMITERS.map((mark) => first.split(mark).length);
  const most = Math.max(...counts);
  return (most > 1 ? DELIMITERS[counts.indexOf(most)] : null) ?? ',';
}

type Columns = Partial<Record<Heading, number>>;

function columnsOf(head: CsvRow, stated: CsvStatement): Columns {
  const columns: Columns = {};
  head.fields.forEach((field, index) => {
    const heading = headingOf(field);
    if (heading === null) return;
    if (columns[heading] !== undefined) {
      importFault('listed-twice', `line ${head.line}`, shownText(field), `one column of ${heading}`);
    }
    columns[heading] = index;
  });
  if (columns.lon !== undefined && columns.lat !== undefined) return columns;
  const hasXy = columns.x !== undefined && columns.y !== undefined;
  if (hasXy && stated.xy === 'lon-lat') return columns;
  const found = hasXy ? 'columns x and y' : `the columns ${shownText(head.fields.join(', '))}`;
  const expected = hasXy
    ? 'columns lon and lat, or a statement that x is longitude and y latitude'
    : 'columns lon and lat (or longitude and latitude)';
  return importFault(hasXy ? 'unstated-axes' : 'missing-column', `line ${head.line}`, found, expected);
}

/** The heading without case and unit: `Latitude (deg)`, `latitude, deg` and `latitude_deg` are `latitude`. */
function headingOf(field: string): Heading | null {
  const plain = field
    .trim()
    .toLowerCase()
    .replace(/(?:[\s_,]+|[\s_,]*[([])\s*(?:deg|degrees|°|m|metres|ft)\s*[)\]]?$/, '');
  return KEYS.find((key) => HEADINGS[key].some((word) => word === plain)) ?? null;
}

const KEYS: readonly Heading[] = ['lon', 'lat', 'x', 'y', 'name', 'note', 'type', 'height'];

/** A number with a decimal comma as one with a point; a degree sign at its end goes. What is no number stays as found. */
function decimal(text: string): string | number {
  const plain = text.trim().replace('−', '-').replace(/\s*°$/, '');
  const comma = /^[+-]?\d{1,9},\d{1,20}$/.test(plain);
  return numberOf(comma ? plain.replace(',', '.') : plain) ?? text;
}
