/**
 * Rows as comma-separated text: fields with commas, quotes or line ends are quoted, quotes doubled, lines end in CR LF.
 *
 * A field that a spreadsheet would take for a formula (it begins with =, +, − or @ and is no number) gets a leading
 * apostrophe, so that a name out of a file never runs. Source: RFC 4180.
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) && !Number.isFinite(Number(value)) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
