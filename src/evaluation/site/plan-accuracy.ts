import type { Plan } from '../../plan/model/plan.ts';
import { accuracyOfClass } from '../../terrain/accuracy/height-accuracy.ts';
import type { HeightAccuracy, TerrainAbout } from '../../terrain/grid/ground.ts';

/** Name of a spread whose constants the user typed in. */
export const OWN_CONSTANTS = 'own-constants';

/** How far the heights are trusted: constants typed in, else the class the plan names, else what was inferred from the file. */
export function accuracyFor(plan: Plan, about: TerrainAbout): HeightAccuracy {
  const { cell, quantum = 0 } = about.accuracy;
  const chosen = plan.terrain?.accuracy ?? null;
  const byClass = (chosen === null ? null : accuracyOfClass(chosen, { cell, quantum })) ?? about.accuracy;
  const constants = plan.terrain?.constants ?? null;
  return constants === null ? byClass : { ...byClass, ...constants, id: OWN_CONSTANTS };
}
