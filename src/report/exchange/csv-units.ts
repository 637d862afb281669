import type { UnitSystem } from '../../units/kind.ts';
import { fromSi, UNITS, type UnitName } from '../../units/unit.ts';

/** A column of numbers of one kind: how its heading ends and how a value is written. */
export interface CsvUnit {
  readonly label: string;
  write(value: number | null | undefined): number | null;
}

function column(name: UnitName, decimals: number): CsvUnit {
  return {
    label: UNITS[name].label,
    write: (value) => (value == null ? null : Number(fromSi(value, name).toFixed(decimals))),
  };
}

export interface CsvUnits {
  readonly height: CsvUnit;
  readonly length: CsvUnit;
  readonly flow: CsvUnit;
  readonly volume: CsvUnit;
  readonly pressure: CsvUnit;
}

/** Units of exported tables: one a kind, so that a column can be summed. */
export const CSV_UNITS: Readonly<Record<UnitSystem, CsvUnits>> = {
  metric: {
    height: column('metre', 2),
    length: column('metre', 1),
    flow: column('litrePerMinute', 2),
    volume: column('litre', 0),
    pressure: column('bar', 2),
  },
  us: {
    height: column('foot', 1),
    length: column('foot', 1),
    flow: column('usGallonPerMinute', 2),
    volume: column('usGallon', 0),
    pressure: column('psi', 0),
  },
};
