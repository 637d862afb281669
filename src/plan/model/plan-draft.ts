import type { Plan, PlanArea, PlanPoint, PlanRoute } from './plan.ts';

/** Everything of a plan that is not drawn. */
export type PlanSettings = Omit<Plan, 'points' | 'routes' | 'areas'>;

/** A part of the plan with the JSON path it has (or would have) in the file. */
export interface Placed<Part> {
  readonly part: Part;
  readonly path: string;
}

/**
 * A plan whose parts each have the right form, before they are checked against each other. Parts that could not be read
 * are left out and said to be: nothing is then said about a reference that may point to one of them.
 */
export interface PlanDraft {
  readonly points: readonly Placed<PlanPoint>[];
  readonly routes: readonly Placed<PlanRoute>[];
  readonly areas: readonly Placed<PlanArea>[];
  readonly settings: PlanSettings | null;
  readonly allFeaturesRead: boolean;
}

/** Freezes a value made of plain objects and lists, all the way down; what is frozen already is taken as done. */
export function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const part of Object.values(value)) deepFreeze(part);
  }
  return value;
}
