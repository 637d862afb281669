/** Seconds in a day. */
export const DAY = 86_400;

/** A value with its spread: 10th, 50th and 90th percentile, in the SI unit of its quantity. */
export interface Estimate {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export type Verdict = 'holds' | 'measure' | 'fails';
