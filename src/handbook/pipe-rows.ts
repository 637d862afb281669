import data from '../../data/pipes.json' with { type: 'json' };
import type { Celsius, Metres, Pascals } from '../units/quantity.ts';
import { toSi, type UnitName } from '../units/unit.ts';
import { provenanceOf, published, type Sourced } from './provenance.ts';
import { roughnessOf, type Surface } from './roughness.ts';
import { type Derating, deratingFactor } from './temperature-derating.ts';

export type PipeMaterial = 'steel' | 'copper' | 'pvc' | 'pe';

/** One size of a standard pipe. */
export interface PipeRow extends Sourced {
  /** Stable name, such as `pvc-sch40-1.25in`, `pe100-sdr11-32` (outside diameter in mm) or `steel-medium-dn25`. */
  readonly id: string;
  readonly label: string;
  readonly series: string;
  readonly size: string;
  readonly standard: string;
  readonly material: PipeMaterial;
  readonly surface: Surface;
  readonly outsideDiameter: Metres;
  /** The wall that goes with `bore`. */
  readonly wall: Metres;
  readonly wallLeast: Metres;
  /** The bore to reckon with, by the convention named beside it. */
  readonly bore: Metres;
  readonly boreLow: Metres;
  readonly boreHigh: Metres;
  readonly boreConvention: string;
  readonly roughness: Metres;
  /** Rated pressure at the rating's own temperature; null where the standard gives none. */
  readonly rating: Pascals | null;
  readonly ratingTemperature: Celsius | null;
  readonly derating: Derating;
}

type Series = (typeof data.series)[number];

const COLUMN = new Map(data.columns.map((name, index) => [name, index]));

const ROWS: readonly PipeRow[] = data.series.flatMap((series) => series.rows.map((cells) => rowOf(series, cells)));
const BY_ID = new Map(ROWS.map((row) => [row.id, row]));

/** Every pipe of the handbook, series by series, small to large. */
export function pipeRows(): readonly PipeRow[] {
  return ROWS;
}

/** A pipe by its id; null when the handbook has none of that name. */
export function pipeRow(id: string): PipeRow | null {
  return BY_ID.get(id) ?? null;
}

/** Rated pressure of a pipe at a temperature; null when it has no rating or the temperature is past its table. */
export function ratingAt(row: PipeRow, temperature: Celsius): Pascals | null {
  const factor = deratingFactor(row.derating, temperature);
  return row.rating === null || factor === null ? null : row.rating * factor;
}

function rowOf(series: Series, cells: readonly (string | number | null)[]): PipeRow {
  const unit = unitOf(series.unit);
  const size = String(cells[COLUMN.get('size') ?? -1]);
  const length = (column: string): Metres => {
    const value = cells[COLUMN.get(column) ?? -1];
    if (typeof value !== 'number')
      throw new Error(`found ${value} as ${column} of ${series.slug} ${size}, expected a number`);
    return toSi(value, unit);
  };
  const rating = cells[COLUMN.get('rating') ?? -1];
  const surface = surfaceOf(series.surface);
  return {
    id: `${series.slug}-${sizeSlug(size, series.unit)}`,
    label: `${series.label} ${size.startsWith('DN') ? size : `${size} ${series.unit}`}`,
    series: series.label,
    size,
    standard: series.standard,
    material: materialOf(series.material),
    surface,
    outsideDiameter: length('od'),
    wall: length('wall'),
    wallLeast: length('wallLeast'),
    bore: length('bore'),
    boreLow: length('boreLow'),
    boreHigh: length('boreHigh'),
    boreConvention: series.boreConvention,
    roughness: roughnessOf(surface).value,
    rating: series.rating && typeof rating === 'number' ? toSi(rating, unitOf(series.rating.unit)) : null,
    ratingTemperature: series.rating && published(series.rating.temperature, 'temperature'),
    derating: deratingOf(series.rating?.derating ?? series.material),
    source: series.source,
    provenance: provenanceOf(series.provenance),
  };
}

/** 1-1/4 in becomes 1.25in, DN 25 becomes dn25, 32 mm stays 32. */
function sizeSlug(size: string, unit: string): string {
  if (unit === 'mm') return size.replace(' ', '').toLowerCase();
  return `${published(size, 'ratio')}in`;
}

/** The published units of the pipe tables. */
function unitOf(word: string): UnitName {
  const names: Readonly<Record<string, UnitName>> = { in: 'inch', mm: 'millimetre', psi: 'psi', bar: 'bar' };
  const name = names[word];
  if (name === undefined) throw new Error(`found unit ${word} among the pipes, expected in, mm, psi or bar`);
  return name;
}

function materialOf(word: string): PipeMaterial {
  if (word === 'steel' || word === 'copper' || word === 'pvc' || word === 'pe') return word;
  throw new Error(`found pipe material ${word}, expected steel, copper, pvc or pe`);
}

function surfaceOf(word: string): Surface {
  if (word === 'smooth-plastic' || word === 'copper' || word === 'steel-galvanised') return word;
  throw new Error(`found pipe surface ${word}, expected smooth-plastic, copper or steel-galvanised`);
}

function deratingOf(word: string): Derating {
  return word === 'pe-inch' ? word : materialOf(word);
}
