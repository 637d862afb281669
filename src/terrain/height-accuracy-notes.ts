import type { HeightAccuracy, TerrainNote } from './ground.ts';

/** What the user should know about a DEM's spread: how its class was found, trees and roofs, coarse steps. */
export function accuracyNotes(accuracy: HeightAccuracy, because: string | null): TerrainNote[] {
  const notes: TerrainNote[] = [];
  if (because !== null) notes.push({ code: 'accuracy-inferred', data: { class: accuracy.id, because } });
  if (accuracy.surface === 'surface') notes.push({ code: 'surface-model', data: {} });
  if (accuracy.surface === 'unknown') notes.push({ code: 'surface-unknown', data: {} });
  if ((accuracy.quantum ?? 0) > 0) notes.push({ code: 'height-steps', data: { step_m: accuracy.quantum ?? 0 } });
  return notes;
}
