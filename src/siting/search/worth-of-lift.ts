import type { Metres, Ratio } from '../../units/quantity.ts';

export interface LiftTerms {
  /** Level that the pump lifts from. */
  readonly pump: Metres;
  readonly friction: Ratio;
  readonly restAsLine: Metres;
}

/** Lifts below this say nothing of what a metre more is worth. */
const LEAST_LIFT: Metres = 1;

/**
 * What the water of a delivery line costs, as metres of line times metres of head.
 *
 * W = (R + C) (max(1, g − p) + i C); C laying cost of the line and R of everything else, m; g governing level, the highest ground
 * on the way or the outlet if that is higher, m; p level of the pump, m; i friction per metre. A ram of given fall and intake
 * delivers in inverse proportion to that head, so W is what is spent for each litre a day.
 * Source: derived from q h = η Q H with η held constant; R and i are common practice, no source.
 */
export function worthOfLift({ pump, friction, restAsLine }: LiftTerms, cost: Metres, governing: Metres): number {
  return (restAsLine + cost) * (Math.max(LEAST_LIFT, governing - pump) + friction * cost);
}

/** The laying cost at which a line of a governing level is worth no more than `worth`: the root of W(C) = worth; 0 if none. */
export function costOfWorth({ pump, friction, restAsLine }: LiftTerms, worth: number, governing: Metres): Metres {
  const lift = Math.max(LEAST_LIFT, governing - pump);
  const missing = worth - restAsLine * lift;
  if (missing <= 0) return 0;
  const b = lift + friction * restAsLine;
  return (2 * missing) / (b + Math.sqrt(b * b + 4 * friction * missing));
}
