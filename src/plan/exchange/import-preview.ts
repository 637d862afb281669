import type { Position } from '../../geodesy/position.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PointRole, RouteRole } from '../model/plan.ts';

/** Ends the reading of a file that cannot be imported at all; it never leaves `readImport`. */
export class ImportFault extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.code);
    this.problem = problem;
  }
}

export function importFault(code: string, path: string, found: string, expected: string): never {
  throw new ImportFault({ code, path, found, expected });
}

export type ImportFormat = 'gpx' | 'kml' | 'geojson' | 'csv';

/** What may be imported before a file is refused; far above a day's tracks, far below what would stall a browser. */
export const importLimits = {
  bytes: 32_000_000,
  positions: 100_000,
  items: 5000,
  elements: 1_000_000,
  depth: 64,
} as const;

/** Heights that a file gives in metres. They have another zero and another accuracy than the DEM's and are never used. */
export interface HeightsAside {
  readonly count: number;
  readonly lowest: Metres;
  readonly highest: Metres;
}

interface ItemBase {
  /** Names it within its preview, such as `item-3`. */
  readonly key: string;
  /** As the file says it, without control and direction marks; may be empty. */
  readonly name: string;
  readonly note: string;
  /** Where in the file it stands, such as `line 12, wpt`. */
  readonly path: string;
  readonly heights: HeightsAside | null;
  /** What is wrong with it; an item with a problem cannot be imported. */
  readonly problems: readonly Problem[];
  /** What was changed or left aside; it can be imported all the same. */
  readonly remarks: readonly Problem[];
}

export interface FoundPoint extends ItemBase {
  readonly kind: 'point';
  /** One position; none when it could not be read. */
  readonly positions: readonly Position[];
  /** The role that its type or name speaks of; null when they speak of none or of several. */
  readonly suggested: PointRole | null;
}

export interface FoundLine extends ItemBase {
  readonly kind: 'line';
  readonly positions: readonly Position[];
  readonly suggested: RouteRole | null;
}

export type FoundItem = FoundPoint | FoundLine;

/** What a file holds, before anything of it becomes part of a plan. */
export interface ImportPreview {
  readonly file: string;
  readonly format: ImportFormat;
  /** In the order of the file. */
  readonly items: readonly FoundItem[];
  /** Parts of the file that are no points or lines, or that cannot be taken. */
  readonly problems: readonly Problem[];
}
