import { signal } from '@preact/signals';
import type { Remedy } from '../../evaluation/mending/mend.ts';
import type { Evaluation, Finding } from '../../evaluation/result/evaluation.ts';

/** What was found for the findings of one evaluation, by `remedyKey`; null where no change of these kinds mends it. */
export interface FoundRemedies {
  readonly of: Evaluation;
  readonly found: ReadonlyMap<string, Remedy | null>;
  /** Findings still to be looked through. */
  readonly left: number;
}

export const remedies = signal<FoundRemedies | null>(null);

/** The remedy whose button is pointed at: it lies on map and profile as a ghost. */
export const pointedRemedy = signal<Remedy | null>(null);

export const remedyKey = ({ code, about }: Pick<Finding, 'code' | 'about'>): string => `${code} ${about}`;
