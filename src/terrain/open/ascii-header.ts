import { refuse } from '../bytes/file-refusal.ts';
import type { Affine } from '../grid/grid.ts';

/** The head of an ESRI ASCII grid. Source: Esri, ArcGIS documentation, "Esri ASCII raster format". */
export interface AsciiHeader {
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  /** Text of the number that means "no height"; null where the file states none. */
  readonly noData: string | null;
  /** Index of the first byte of the heights. */
  readonly bodyAt: number;
}

const KEYS = [
  'ncols',
  'nrows',
  'xllcorner',
  'yllcorner',
  'xllcenter',
  'yllcenter',
  'cellsize',
  'dx',
  'dy',
  'nodata_value',
];
const MOST_SIDE = 1_000_000;

export function looksLikeAsciiGrid(head: Uint8Array): boolean {
  const text = asText(head.subarray(0, 64)).trimStart().toLowerCase();
  return KEYS.some((key) => text.startsWith(key) && /\s/.test(text.charAt(key.length)));
}

/** Reads the lines of key and value that come before the heights. */
export function readAsciiHeader(head: Uint8Array): AsciiHeader {
  const text = asText(head);
  const values = new Map<string, string>();
  let at = 0;
  for (;;) {
    const line = /\s*([A-Za-z_]+)[ \t]+(\S+)[ \t]*\r?\n/y;
    line.lastIndex = at;
    const match = line.exec(text);
    if (match === null) break;
    const [, name = '', value = ''] = match;
    const key = name.toLowerCase();
    if (!KEYS.includes(key)) break;
    if (values.has(key)) refuse({ code: 'ascii-header', where: key, found: 'the key twice', expected: 'it once' });
    values.set(key, value);
    at = line.lastIndex;
  }
  const columns = sideOf(values, 'ncols');
  const rows = sideOf(values, 'nrows');
  return { columns, rows, affine: affineOf(values, rows), noData: values.get('nodata_value') ?? null, bodyAt: at };
}

function affineOf(values: ReadonlyMap<string, string>, rows: number): Affine {
  const dx = cellOf(values, 'dx');
  const dy = cellOf(values, 'dy');
  const left = cornerOf(values, 'x', dx);
  const bottom = cornerOf(values, 'y', dy);
  return { a: dx, b: 0, c: left, d: 0, e: -dy, f: bottom + rows * dy };
}

/** The lower left corner, stated itself or by the middle of the lower left cell. */
function cornerOf(values: ReadonlyMap<string, string>, axis: 'x' | 'y', cell: number): number {
  if (values.has(`${axis}llcorner`)) return numberOf(values, `${axis}llcorner`);
  return numberOf(values, `${axis}llcenter`) - cell / 2;
}

function cellOf(values: ReadonlyMap<string, string>, axis: 'dx' | 'dy'): number {
  const cell = numberOf(values, values.has(axis) ? axis : 'cellsize');
  return cell > 0 ? cell : refuse({ code: 'cell-size', where: 'cellsize', found: cell, expected: 'more than 0' });
}

function sideOf(values: ReadonlyMap<string, string>, key: string): number {
  const side = numberOf(values, key);
  if (Number.isInteger(side) && side >= 1 && side <= MOST_SIDE) return side;
  return refuse({ code: 'raster-size', where: key, found: side, expected: `1 to ${MOST_SIDE} cells` });
}

function numberOf(values: ReadonlyMap<string, string>, key: string): number {
  const text = values.get(key);
  const value = text === undefined ? Number.NaN : Number(text);
  if (Number.isFinite(value)) return value;
  return refuse({ code: 'ascii-header', where: key, found: text ?? 'no such line', expected: 'a number' });
}

function asText(bytes: Uint8Array): string {
  const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  // The mark of UTF-8 becomes three blanks, so that places in the text stay places in the file.
  const text = String.fromCharCode(...bytes);
  return marked ? `   ${text.slice(3)}` : text;
}
