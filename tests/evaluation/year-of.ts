import { evaluateAtRest, type Ground } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';

/** The year at every tank, as the answer at rest has it. */
export const yearOf = (plan: Plan, ground: Ground) => evaluateAtRest(plan, ground).years;
