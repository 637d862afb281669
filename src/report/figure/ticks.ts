/** Values of an axis at round steps of 1, 2 or 5 times a power of ten. */
export interface Ticks {
  readonly step: number;
  readonly values: readonly number[];
  /** Digits after the point that tell two neighbouring ticks apart. */
  readonly digits: number;
}

const ROUND_STEPS = [1, 2, 5, 10] as const;

/** The ticks between two values, as many as there may be and no more than `most`. */
export function roundTicks(range: { readonly from: number; readonly to: number }, most: number): Ticks {
  const span = range.to - range.from;
  if (!(span > 0)) return { step: 1, values: [range.from], digits: 0 };
  let step = roundStep(span / Math.max(1, most));
  while (countOf(range, step) > most && step < span) step = roundStep(step * ABOVE);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + CLOSE));
  const first = Math.ceil(range.from / step - CLOSE);
  const values = Array.from({ length: countOf(range, step) }, (_, index) =>
    Number(((first + index) * step).toFixed(digits)),
  );
  return { step, values, digits };
}

/** Rounding of a quotient that should be whole. */
const CLOSE = 1e-9;
/** Just more than one: leads from a round step to the next. */
const ABOVE = 1.001;

function countOf({ from, to }: { readonly from: number; readonly to: number }, step: number): number {
  return Math.floor(to / step + CLOSE) - Math.ceil(from / step - CLOSE) + 1;
}

/** The smallest round step that is at least as large as the one given. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = ROUND_STEPS.find((round) => round * power >= least * (1 - CLOSE)) ?? 10;
  return factor * power;
}
