import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Plan } from '../../plan/model/plan.ts';

/** A plan with what came of it. */
export interface ComparedPlan {
  readonly plan: Plan;
  readonly evaluation: Evaluation;
}

/** Two plans; what differs is told of the second against the first. Points and lines are the same ones by their ids. */
export interface ComparedPair {
  readonly one: ComparedPlan;
  readonly other: ComparedPlan;
}
