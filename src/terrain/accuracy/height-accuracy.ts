import table from '../../../data/height-accuracy.json';
import type { Metres, Ratio } from '../../units/quantity.ts';
import type { HeightAccuracy } from '../grid/ground.ts';

/** A class of elevation data with its spread; `data/height-accuracy.json` holds them with their sources. */
export interface AccuracyClass
  extends Pick<HeightAccuracy, 'id' | 'nugget' | 'near' | 'nearRange' | 'far' | 'farRange'> {
  readonly title: string;
  readonly surface: 'ground' | 'surface';
  readonly smoothingDoubt: Ratio;
  /** Usual error of cell averaging on sloping farmland, m, as averaged lidar shows it; part of `absolute`. */
  readonly averaging: Metres;
  /** Published standard deviation of a single height, m. */
  readonly absolute: Metres;
  readonly source: string;
}

export const accuracyClasses: readonly AccuracyClass[] = table.classes.map((row) => ({
  ...row,
  surface: row.surface === 'surface' ? 'surface' : 'ground',
}));

/** What of a spread belongs to the file rather than to the class. */
export interface GridFacts {
  /** Cell on the ground, m. */
  readonly cell: Metres;
  /** Step between stored heights, m; 0 for floating point. */
  readonly quantum: Metres;
}

/** The spread of a class on a grid; null when there is no class of that name. */
export function accuracyOfClass(id: string, grid: GridFacts): HeightAccuracy | null {
  const found = accuracyClasses.find((c) => c.id === id);
  if (!found) return null;
  const { nugget, near, nearRange, far, farRange, smoothingDoubt, surface } = found;
  const { cell, quantum } = grid;
  const placement = table.placementInCells * cell;
  return { id, cell, nugget, near, nearRange, far, farRange, smoothingDoubt, placement, quantum, surface };
}
