import type { Metres } from '../../units/quantity.ts';
import { namedProduct } from '../georeference/product-name.ts';
import type { HeightAccuracy } from '../grid/ground.ts';
import type { TerrainNote } from '../grid/terrain-note.ts';
import { accuracyOfClass, type GridFacts } from './height-accuracy.ts';

/** From this cell size on, averaging takes a good part of a metre off valleys and ridges of hilly ground. Calibration. */
const FLATTENING_CELL: Metres = 5;

/** Finer steps than this drown in the spread of any survey. */
const COARSE_STEP: Metres = 0.1;

/** What the user should know about a DEM's spread: how its class was found, trees and roofs, coarse steps and cells. */
export function accuracyNotes(accuracy: HeightAccuracy, because: string | null): TerrainNote[] {
  const notes: TerrainNote[] = [];
  if (because !== null) notes.push({ code: 'accuracy-inferred', data: { class: accuracy.id, because } });
  if (accuracy.surface === 'surface') notes.push({ code: 'surface-model', data: {} });
  if (accuracy.surface === 'unknown') notes.push({ code: 'surface-unknown', data: {} });
  const step = accuracy.quantum ?? 0;
  if (step >= COARSE_STEP) notes.push({ code: 'height-steps', data: { step_m: step } });
  if (accuracy.cell >= FLATTENING_CELL) notes.push({ code: 'cells-flatten', data: { cell_m: accuracy.cell } });
  return notes;
}

/** What an accuracy class can be told from. */
export interface ProductHints extends GridFacts {
  readonly files: readonly string[];
}

/** A spread with the hint that chose its class; the user may choose another. */
export interface InferredAccuracy {
  readonly accuracy: HeightAccuracy;
  readonly because: 'file-name' | 'cell-size' | 'whole-metres';
}

interface SizeRule {
  readonly below: number;
  readonly whole: string;
  readonly fractional: string;
}

/** Classes by cell size, m: for heights in whole metres and for finer ones. The wider of two likely classes is taken. */
const sizeRules: readonly SizeRule[] = [
  { below: 0.4, whole: 'older-10m', fractional: 'drone-surface' },
  { below: 2.5, whole: 'older-10m', fractional: 'lidar-1m-scrub' },
  { below: 7, whole: 'older-10m', fractional: 'lidar-5m' },
  // Square cells of 8 m come from satellite stereo, those of 12 m from radar; national models have 10 m or a third of a second.
  { below: 8.3, whole: 'older-10m', fractional: 'stereo-8m' },
  { below: 11, whole: 'older-10m', fractional: 'seamless-10m' },
  { below: 15, whole: 'older-10m', fractional: 'radar-12m' },
  { below: 60, whole: 'radar-30m', fractional: 'global-30m-steep' },
  { below: Number.POSITIVE_INFINITY, whole: 'global-90m', fractional: 'global-90m' },
];

/** Steps from half a metre up are taken for whole metres (or whole feet doubled). */
const WHOLE_METRES = 0.5;

/** The accuracy class a file most likely belongs to, from its name, the size of its cells and the step of its heights. */
export function inferHeightAccuracy(hints: ProductHints): InferredAccuracy {
  const [named] = hints.files.flatMap((file) => namedProduct(file, hints.cell) ?? []);
  if (named) return { accuracy: withSurface(named.class, hints), because: 'file-name' };
  const whole = hints.quantum >= WHOLE_METRES;
  const sized = sizeRules.find((r) => hints.cell < r.below);
  const id = whole ? sized?.whole : sized?.fractional;
  return { accuracy: withSurface(id ?? 'global-90m', hints), because: whole ? 'whole-metres' : 'cell-size' };
}

const SURFACE_NAME = /(^|[^a-z])(dsm|dom|ndom|mns|surface)([^a-z]|$)/i;
const GROUND_NAME = /(^|[^a-z])(dtm|dgm\d*|mnt|dhm|bare|ground)([^a-z]|$)/i;

/** What the heights show: as the file's name says, else as the class does where its product is known. */
function withSurface(id: string, hints: ProductHints): HeightAccuracy {
  const accuracy = accuracyOfClass(id, hints);
  if (!accuracy) throw new Error(`accuracy class: found ${id}, expected one of data/height-accuracy.json`);
  const says = (pattern: RegExp): boolean => hints.files.some((file) => pattern.test(file));
  if (accuracy.id === 'global-30m-ground') return accuracy;
  if (says(SURFACE_NAME)) return { ...accuracy, surface: 'surface' };
  if (says(GROUND_NAME)) return { ...accuracy, surface: 'ground' };
  return accuracy.surface === 'surface' ? accuracy : { ...accuracy, surface: 'unknown' };
}
