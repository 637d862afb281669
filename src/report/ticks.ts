/** Values of an axis at round steps of 1, 2 or 5 times a power of ten. */
export interface Ticks {
  readonly step: number;
  readonly values: readonly number[];
  /** Digits after the point that tell two neighbouring ticks apart. */
  readonly digits: number;
}

const ROUND_STEPS = [1, 2, 5, 10] as const;

/** The ticks between two values, no more than `most`, which is at least 2. */
export function roundTicks(range: { readonly from: number; readonly to: number }, most: number): Ticks {
  const span = range.to - range.from;
  if (!(span > 0)) return { step: 1, values: [range.from], digits: 0 };
  const step = roundStep(span / Math.max(1, most - 1));
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(range.from / step - 1e-9);
  const last = Math.floor(range.to / step + 1e-9);
  const values = Array.from({ length: last - first + 1 }, (_, index) =>
    Number(((first + index) * step).toFixed(digits)),
  );
  return { step, values, digits };
}

/** The smallest round step that is at least as large as the one given. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = ROUND_STEPS.find((round) => round * power >= least * (1 - 1e-9)) ?? 10;
  return factor * power;
}
