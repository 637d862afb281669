import type { Ratio } from '../units/quantity.ts';

/** A height or depth system of the EPSG registry. */
export interface VerticalCrs {
  readonly code: number;
  readonly name: string;
  /** Heights count upwards, depths downwards. */
  readonly direction: 'up' | 'down';
  readonly unit: 'metre' | 'foot' | 'US survey foot' | 'British foot 1936';
  readonly metresPerUnit: Ratio;
}

/** A code that stands for a horizontal and a vertical system together. */
export interface CompoundCrs {
  readonly code: number;
  readonly name: string;
  readonly horizontal: number;
  readonly vertical: number;
}

/** Source: EPSG Geodetic Parameter Dataset v10.076, units of measure 9001, 9002, 9003 and 9095. */
const units: Readonly<Record<string, Pick<VerticalCrs, 'unit' | 'metresPerUnit'>>> = {
  metre: { unit: 'metre', metresPerUnit: 1 },
  foot: { unit: 'foot', metresPerUnit: 0.3048 },
  'US survey foot': { unit: 'US survey foot', metresPerUnit: 1200 / 3937 },
  'British foot (1936)': { unit: 'British foot 1936', metresPerUnit: 0.3048007491 },
};

const cellsOf = (rows: readonly string[], code: number): readonly string[] | undefined =>
  rows.find((row) => row.startsWith(`${code}|`))?.split('|');

/** What a vertical code means; null where the registry has no such code. */
export async function verticalCrs(code: number): Promise<VerticalCrs | null> {
  const { rows } = (await import('../../data/crs/vertical.json')).default;
  const cells = cellsOf(rows, code);
  if (!cells) return null;
  const [, name = '', direction = '', unitName = ''] = cells;
  const unit = units[unitName];
  if (!unit) throw new Error(`unit of vertical CRS ${code}: found ${unitName}, expected one of ${Object.keys(units)}`);
  return { code, name, direction: direction === 'down' ? 'down' : 'up', ...unit };
}

/** The two parts of a compound code; null where the registry has no such code. */
export async function compoundCrs(code: number): Promise<CompoundCrs | null> {
  const { rows } = (await import('../../data/crs/compound.json')).default;
  const cells = cellsOf(rows, code);
  if (!cells) return null;
  const [, name = '', horizontal = '', vertical = ''] = cells;
  return { code, name, horizontal: Number(horizontal), vertical: Number(vertical) };
}
