import type { Outcome } from '../../units/outcome.ts';
import type { CellWindow, ElevationGrid } from '../grid/grid.ts';

/** Memory that one window of heights may take unless the caller says otherwise: 16 million cells. */
export const WINDOW_BUDGET_BYTES = 144 * 1024 * 1024;

/** A height in double precision and whether it is known. */
const BYTES_PER_CELL = 9;

/** The grid to read a window from, which may be a coarser copy, and the window in its cells. */
export interface LevelChoice {
  readonly grid: ElevationGrid;
  readonly window: CellWindow;
}

/** The finest copy of a grid whose window fits a budget of memory; refused when even the coarsest does not. */
export function levelWithin(
  grid: ElevationGrid,
  window: CellWindow,
  budget: number = WINDOW_BUDGET_BYTES,
): Outcome<LevelChoice> {
  const levels = [grid, ...grid.overviews].map((level) => ({ level, window: windowInCopy(window, grid, level) }));
  const chosen = levels.find((l) => bytesOf(l.window) <= budget);
  if (!chosen) {
    const least = Math.min(...levels.map((l) => bytesOf(l.window)));
    const problem = { code: 'window-too-large', path: grid.name, found: megabytes(least), expected: megabytes(budget) };
    return { ok: false, problems: [problem] };
  }
  return { ok: true, value: { grid: chosen.level, window: chosen.window } };
}

const bytesOf = ({ columns, rows }: CellWindow): number => columns * rows * BYTES_PER_CELL;

const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1024 / 1024)} MB`;

/** The cells of a copy that cover a window of the full grid. */
export function windowInCopy(window: CellWindow, full: ElevationGrid, level: ElevationGrid): CellWindow {
  const x = level.columns / full.columns;
  const y = level.rows / full.rows;
  const column = Math.floor(window.column * x);
  const row = Math.floor(window.row * y);
  return {
    column,
    row,
    columns: Math.min(level.columns, Math.ceil((window.column + window.columns) * x)) - column,
    rows: Math.min(level.rows, Math.ceil((window.row + window.rows) * y)) - row,
  };
}
