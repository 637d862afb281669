import { shownText } from './clean-text.ts';
import type { ItemBook } from './import-items.ts';
import { importFault, importLimits } from './import-preview.ts';
import { numberOf } from './read-place.ts';

interface CsvRow {
  readonly fields: readonly string[];
  /** Line of the file on which it begins. */
  readonly line: number;
}

/** Columns beyond this number mean that the file is no table of points. */
const MOST_FIELDS = 500;

/** Fields of delimited text, quoted ones with doubled quotes inside; lines that are blank are left out. Source: RFC 4180. */
export function csvRows(text: string, delimiter: string): readonly CsvRow[] {
  const rows: CsvRow[] = [];
  let at = 0;
  let line = 1;
  while (at < text.length) {
    const row = rowAt(text, { at, line, delimiter });
    if (row.fields.length > 1 || row.fields[0]?.trim() !== '') rows.push({ fields: row.fields, line });
    if (rows.length > importLimits.positions) {
      importFault('too-many', `line ${line}`, `more than ${importLimits.positions} rows`, 'fewer');
    }
    at = row.next;
    line = row.line;
  }
  return rows;
}

interface Cursor {
  readonly at: number;
  readonly line: number;
  readonly delimiter: string;
}

function rowAt(text: string, { at, line, delimiter }: Cursor) {
  const fields: string[] = [];
  let here = at;
  let lines = line;
  for (;;) {
    const field = text[here] === '"' ? quotedAt(text, here, lines) : plainAt(text, here, delimiter);
    fields.push(field.value);
    if (fields.length > MOST_FIELDS) {
      importFault('too-many', `line ${lines}`, `more than ${MOST_FIELDS} fields`, `at most ${MOST_FIELDS}`);
    }
    lines += field.lines;
    here = field.next;
    if (text[here] !== delimiter) break;
    here += 1;
  }
  const end = text.startsWith('\r\n', here) ? 2 : 1;
  const ended = here >= text.length || text[here] === '\n' || text[here] === '\r';
  if (!ended)
    importFault('not-csv', `line ${lines}`, 'text after a closing quote', 'a delimiter or the end of the line');
  return { fields, next: here + end, line: lines + 1 };
}

function plainAt(text: string, at: number, delimiter: string) {
  let end = at;
  while (end < text.length && text[end] !== delimiter && text[end] !== '\n' && text[end] !== '\r') end += 1;
  return { value: text.slice(at, end), next: end, lines: 0 };
}

function quotedAt(text: string, at: number, line: number) {
  let end = at + 1;
  for (;;) {
    end = text.indexOf('"', end);
    if (end < 0) importFault('not-csv', `line ${line}`, 'a quote that is never closed', 'a closing quote');
    if (text[end + 1] !== '"') break;
    end += 2;
  }
  const inside = text.slice(at + 1, end);
  const lines = inside.split('\n').length - 1;
  return { value: inside.replaceAll('""', '"'), next: end + 1, lines };
}

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
