import type { Metres } from '../../units/quantity.ts';
import type { HeightAccuracy } from '../grid/ground.ts';
import type { TerrainNote } from '../grid/terrain-note.ts';

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
