import type { CellOnGround } from '../../terrain/grid/placed-grid.ts';
import type { Metres } from '../../units/quantity.ts';
import type { HeightField } from '../search/height-field.ts';

/** Heights that passes over every cell work on: single precision, and where a line may lie at all. */
export interface OpenGround {
  readonly columns: number;
  readonly rows: number;
  readonly heights: Float32Array;
  /** 1 where the cell has a height and may be crossed. */
  readonly open: Uint8Array;
  readonly cell: CellOnGround;
}

/** A field made ready for passes over every cell; `shut` marks cells that must not be crossed. */
export function openGround(field: HeightField, shut: Uint8Array | null = null): OpenGround {
  const { columns, rows, cell, known } = field;
  const heights = field.heights instanceof Float32Array ? field.heights : Float32Array.from(field.heights);
  return { columns, rows, heights, open: shut ? openBesides(known, shut) : known, cell };
}

function openBesides(known: Uint8Array, shut: Uint8Array): Uint8Array {
  const open = known.slice();
  for (let i = 0; i < open.length; i++) if (shut[i] === 1) open[i] = 0;
  return open;
}

/** Level width and height of a cell, m. */
export function cellSides({ cell }: OpenGround): { readonly width: Metres; readonly height: Metres } {
  return {
    width: Math.hypot(cell.eastPerColumn, cell.northPerColumn),
    height: Math.hypot(cell.eastPerRow, cell.northPerRow),
  };
}
