/** A column of a table: its heading, and whether it holds numbers. */
export interface TableColumn {
  readonly name: string;
  readonly numeric: boolean;
}

/** A table as data, every cell in words: for a page, for print, and for a file of comma-separated values. */
export interface ReportTable {
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly { readonly id: string; readonly cells: readonly string[] }[];
}

/** A dash stands where nothing is known. */
export const UNKNOWN = '–';

export function textColumn(name: string): TableColumn {
  return { name, numeric: false };
}

export function numberColumn(name: string): TableColumn {
  return { name, numeric: true };
}

/**
 * Rows as comma-separated text: fields with commas, quotes or line ends are quoted, quotes doubled, lines end in CR LF.
 *
 * A field that a spreadsheet would take for a formula (it begins with =, +, − or @ and is no number) gets a leading
 * apostrophe, so that a name out of a file never runs. Source: RFC 4180.
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

/** What begins a formula, also in full width and behind blanks, which some spreadsheets drop. Source: OWASP, CSV Injection. */
const FORMULA = /^(?:[\t\r]|\s*[=+\-@＝＋－＠])/;

function field(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = FORMULA.test(value) && !Number.isFinite(Number(value)) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
