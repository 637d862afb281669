import { evaluate, evaluateAtRest } from '../../evaluation/evaluate.ts';
import type { Evaluation } from '../../evaluation/evaluation.ts';
import type { Plan } from '../../plan/plan.ts';
import type { HeightAccuracy, TerrainAbout } from '../../terrain/ground.ts';
import { accuracyOfClass } from '../../terrain/height-accuracy.ts';
import type { GroundedPlan } from './ground-feed.ts';

/** The evaluation of a plan on its ground: quick while something is dragged, else the answer that counts. */
export function evaluated(
  { plan, ground }: GroundedPlan,
  about: TerrainAbout,
  { dragging }: { readonly dragging: boolean },
): Evaluation {
  const known = { points: ground.points, lines: ground.lines, accuracy: accuracyFor(plan, about) };
  return dragging ? evaluate(plan, known) : evaluateAtRest(plan, known);
}

/** How far the heights are trusted: the class the plan names, else what was inferred from the file. */
export function accuracyFor(plan: Plan, about: TerrainAbout): HeightAccuracy {
  const { cell, quantum = 0 } = about.accuracy;
  const chosen = plan.terrain?.accuracy ?? null;
  return (chosen === null ? null : accuracyOfClass(chosen, { cell, quantum })) ?? about.accuracy;
}
