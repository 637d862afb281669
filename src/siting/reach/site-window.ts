import type { Position } from '../../geodesy/position.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import type { ReadWindow } from '../../terrain/ground/read-window.ts';
import type { Metres } from '../../units/quantity.ts';
import { type OpenGround, openGround } from '../fields/open-ground.ts';
import { type ShutArea, shutCells } from '../fields/shut-cells.ts';
import type { FieldPlace } from '../search/height-field.ts';

/** An area on the map that must not be crossed, its outline first and holes behind it, with places where it may be. */
export interface AvoidedArea {
  readonly name: string;
  readonly rings: readonly (readonly Position[])[];
  readonly gates: readonly Position[];
}

/** The ground that siting looks at: a window of heights, with what must not be crossed shut. */
export interface SiteWindow {
  readonly window: ReadWindow;
  readonly ground: OpenGround;
  /** The middle of the cell that holds a position; null outside. */
  cellAt(position: Position): number | null;
  placeAt(position: Position): FieldPlace | null;
  positionAt(place: FieldPlace): Position | null;
  positionOf(cell: number): Position | null;
}

export interface SiteWindowWish {
  readonly around: readonly Position[];
  readonly margin: Metres;
  readonly mostCells: number;
  readonly avoid: readonly AvoidedArea[];
}

export type SiteWindowOutcome =
  | { readonly kind: 'read'; readonly site: SiteWindow }
  | { readonly kind: 'no-height'; readonly at: Position };

/** Cell places count from the corner of the first cell, field places from its middle. */
const HALF_CELL = 0.5;

export async function readSiteWindow(
  terrain: GridTerrain,
  { around, margin, mostCells, avoid }: SiteWindowWish,
  signal?: AbortSignal,
): Promise<SiteWindowOutcome> {
  const read = await terrain.groundWindow({ around, margin, mostCells }, signal);
  return read.kind === 'read' ? { kind: 'read', site: siteWindow(read.window, avoid) } : read;
}

export function siteWindow(window: ReadWindow, avoid: readonly AvoidedArea[]): SiteWindow {
  const { columns, rows } = window.block;
  const placeAt = (position: Position): FieldPlace | null => {
    const at = window.cellAt(position);
    return at && { column: at.column - HALF_CELL, row: at.row - HALF_CELL };
  };
  const positionAt = ({ column, row }: FieldPlace): Position | null =>
    window.positionAt({ column: column + HALF_CELL, row: row + HALF_CELL });
  const places = (ring: readonly Position[]): FieldPlace[] => ring.flatMap((p) => placeAt(p) ?? []);
  const shut: ShutArea[] = avoid.map(({ rings, gates }) => ({ rings: rings.map(places), gates: places(gates) }));
  return {
    window,
    ground: openGround(
      { ...window.block, cell: window.cell },
      shut.length > 0 ? shutCells({ columns, rows }, shut) : null,
    ),
    placeAt,
    positionAt,
    positionOf: (cell) => positionAt({ column: cell % columns, row: Math.floor(cell / columns) }),
    cellAt(position) {
      const place = placeAt(position);
      if (!place) return null;
      const column = Math.round(place.column);
      const row = Math.round(place.row);
      return column >= 0 && row >= 0 && column < columns && row < rows ? row * columns + column : null;
    },
  };
}
