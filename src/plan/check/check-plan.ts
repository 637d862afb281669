import type { HandbookRows } from '../model/handbook-rows.ts';
import type { PlanDraft } from '../model/plan-draft.ts';
import type { Problem } from '../model/problem.ts';
import { checkMeasurements } from './check-measurements.ts';
import { checkNumbers } from './check-numbers.ts';
import { checkPoints } from './check-points.ts';
import { checkRoutes } from './check-routes.ts';

/** Everything that is wrong between the parts of a plan, and with numbers that only make sense together. */
export function checkPlan(draft: PlanDraft, rows: HandbookRows): readonly Problem[] {
  return [
    ...checkPoints(draft),
    ...checkRoutes(draft, rows),
    ...checkNumbers(draft, rows),
    ...checkMeasurements(draft),
  ];
}
