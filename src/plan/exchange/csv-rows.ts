import { importFault } from './import-fault.ts';
import { importLimits } from './import-preview.ts';

export interface CsvRow {
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
