import { evaluate } from '../../evaluation/evaluate.ts';
import type { Evaluation } from '../../evaluation/evaluation.ts';
import type { TerrainAbout } from '../../terrain/ground.ts';
import type { GroundedPlan } from './ground-feed.ts';

/** The evaluation of a plan on its ground. */
export function evaluated({ plan, ground }: GroundedPlan, about: TerrainAbout): Evaluation {
  return evaluate(plan, { points: ground.points, lines: ground.lines, accuracy: about.accuracy });
}
