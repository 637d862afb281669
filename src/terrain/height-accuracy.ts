import table from '../../data/height-accuracy.json';
import type { Metres } from '../units/quantity.ts';
import type { HeightAccuracy } from './ground.ts';

/** A class of elevation data with its spread; `data/height-accuracy.json` holds them with their sources. */
export interface AccuracyClass
  extends Pick<HeightAccuracy, 'id' | 'nugget' | 'near' | 'nearRange' | 'far' | 'farRange'> {
  readonly title: string;
  readonly surface: 'ground' | 'surface';
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
  const { nugget, near, nearRange, far, farRange, surface } = found;
  const placement = table.placementInCells * grid.cell;
  return { id, cell: grid.cell, nugget, near, nearRange, far, farRange, placement, quantum: grid.quantum, surface };
}
