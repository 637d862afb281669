import { evaluate, evaluateAtRest } from '../../evaluation/evaluate.ts';
import type { Evaluation } from '../../evaluation/evaluation.ts';
import { accuracyFor } from '../../evaluation/plan-accuracy.ts';
import type { TerrainAbout } from '../../terrain/ground.ts';
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
