import type { Degrees, Metres } from '../units/quantity.ts';

/** How coordinates move to WGS 84: an operation of the EPSG registry, how well it fits, and its position-vector parameters. */
export interface DatumShift {
  readonly name: string;
  /** Null where no accuracy is published. */
  readonly accuracy: Metres | null;
  /** None, three translations in m, or these with three rotations in seconds of arc and a scale in parts per million. */
  readonly parameters: readonly number[];
}

export interface CrsRow {
  readonly code: number;
  readonly name: string;
  readonly projection: string;
  readonly shift: DatumShift;
  /** Where the registry means it to be used; null where that was not looked up. */
  readonly area: AreaOfUse | null;
}

/** Degrees; east lies below west where the area crosses the antimeridian. */
export interface AreaOfUse {
  readonly west: Degrees;
  readonly south: Degrees;
  readonly east: Degrees;
  readonly north: Degrees;
}

interface Rows {
  readonly rows: readonly string[];
}

type Loader = () => Promise<{ readonly default: Rows }>;

/** Thousands of codes with a file of their own; the rest share one. `scripts/crs-table.py` writes them. */
const blocks: ReadonlyMap<number, Loader> = new Map<number, Loader>([
  [2, () => import('../../data/crs/epsg-2.json')],
  [3, () => import('../../data/crs/epsg-3.json')],
  [4, () => import('../../data/crs/epsg-4.json')],
  [5, () => import('../../data/crs/epsg-5.json')],
  [6, () => import('../../data/crs/epsg-6.json')],
  [7, () => import('../../data/crs/epsg-7.json')],
  [8, () => import('../../data/crs/epsg-8.json')],
  [20, () => import('../../data/crs/epsg-20.json')],
  [21, () => import('../../data/crs/epsg-21.json')],
  [22, () => import('../../data/crs/epsg-22.json')],
  [23, () => import('../../data/crs/epsg-23.json')],
  [24, () => import('../../data/crs/epsg-24.json')],
  [25, () => import('../../data/crs/epsg-25.json')],
  [26, () => import('../../data/crs/epsg-26.json')],
  [27, () => import('../../data/crs/epsg-27.json')],
  [28, () => import('../../data/crs/epsg-28.json')],
  [29, () => import('../../data/crs/epsg-29.json')],
  [30, () => import('../../data/crs/epsg-30.json')],
  [31, () => import('../../data/crs/epsg-31.json')],
  [32, () => import('../../data/crs/epsg-32.json')],
]);
const otherBlock: Loader = () => import('../../data/crs/epsg-other.json');

const THOUSAND = 1000;

const rowOf = (rows: readonly string[], code: number): readonly string[] | null =>
  rows.find((row) => row.startsWith(`${code}|`))?.split('|') ?? null;

/** The table's row of a code, or null where the table has none. */
export async function crsFromTable(code: number): Promise<CrsRow | null> {
  const load = blocks.get(Math.floor(code / THOUSAND)) ?? otherBlock;
  const cells = rowOf((await load()).default.rows, code);
  if (!cells) return null;
  const [, name = '', projection = '', shift = '', box = ''] = cells;
  return { code, name, projection, shift: await shiftAt(Number(shift)), area: areaOf(box) };
}

function areaOf(box: string): AreaOfUse | null {
  const [west, south, east, north] = box.split(',').map(Number);
  if (west === undefined || south === undefined || east === undefined || north === undefined) return null;
  return { west, south, east, north };
}

async function shiftAt(index: number): Promise<DatumShift> {
  const { rows } = (await import('../../data/crs/shifts.json')).default;
  const row = rows[index];
  if (row === undefined) throw new Error(`datum shift ${index}: found none, expected 0 to ${rows.length - 1}`);
  const [name = '', accuracy = '', parameters = ''] = row.split('|');
  return {
    name,
    accuracy: accuracy === '' ? null : Number(accuracy),
    parameters: parameters === '' ? [] : parameters.split(',').map(Number),
  };
}

/** The name of a CRS that the registry has but that cannot be computed here; null otherwise. */
export async function refusedCrsName(code: number): Promise<string | null> {
  const { rows } = (await import('../../data/crs/refused.json')).default;
  return rowOf(rows, code)?.[1] ?? null;
}
