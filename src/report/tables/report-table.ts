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
