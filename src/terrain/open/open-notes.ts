import type { UnitEvidence } from '../georeference/open-answers.ts';
import { METRES_PER } from '../georeference/vertical-unit.ts';
import type { TerrainNote } from '../grid/terrain-note.ts';

/** That metres were taken since nothing says otherwise, with the slope that the ground then has, and in feet would have. */
export function unitAssumed(file: string, { slopeAsMetres }: UnitEvidence): TerrainNote {
  const data = { file, unit: 'metre', slope: slopeAsMetres, slope_in_feet: slopeAsMetres * METRES_PER.foot };
  return { code: 'vertical-unit-assumed', data };
}
