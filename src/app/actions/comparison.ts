import { computed, signal } from '@preact/signals';
import { type Differences, turned } from '../../evaluation/evaluate/compare-drawn.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { ComparedPair } from '../../report/compare/compared-row.ts';
import type { GroundedPlan } from '../client/ground-feed.ts';
import { desk, type Sheet, sheets } from '../state/alternatives.ts';
import { job } from '../state/jobs-store.ts';
import { evaluation, grounded, panel } from '../state/store.ts';

/** An alternative on its ground, with what came of it. */
export interface ReckonedSheet {
  readonly sheet: string;
  readonly grounded: GroundedPlan;
  readonly evaluation: Evaluation;
}

export type Comparison =
  | { readonly kind: 'none' }
  /** First the ground under it is read, then its numbers are drawn. */
  | { readonly kind: 'reckoning'; readonly step: 'ground' | 'numbers' }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'known'; readonly other: ReckonedSheet }
  | { readonly kind: 'failed'; readonly reason: string };

/** The sheet that was chosen to be compared with; null takes the first that is not shown. */
export const comparedWith = signal<string | null>(null);

/** Whether plans are looked at side by side at the moment; on a narrow page their profiles are a panel of their own. */
export const comparing = computed(
  () => (panel.value === 'jobs' || panel.value === 'profile') && job.value === 'alternatives',
);

/** The alternative beside the plan that is shown; null while there is only one plan. */
export const otherSheet = computed<Sheet | null>(() => {
  const others = sheets.value.filter(({ id }) => id !== desk.value.shown);
  return others.find(({ id }) => id === comparedWith.value) ?? others[0] ?? null;
});

export const comparison = signal<Comparison>({ kind: 'none' });

/** What is laid over map and profile: the other plan while both are looked at. */
export const laidOver = computed<ReckonedSheet | null>(() =>
  comparing.value && comparison.value.kind === 'known' ? comparison.value.other : null,
);

/** What the other plan has more than the one that is shown, draw by draw, and of which plans; null until it is known. */
export const differences = signal<{
  readonly here: Plan;
  readonly there: Plan;
  readonly drawn: Differences | null;
} | null>(null);

/** Both plans with what came of them, the one that lies first on the desk first, whichever is shown; null until both are reckoned. */
export const comparedPair = computed<ComparedPair | null>(() => {
  const other = laidOver.value;
  const [result, known] = [evaluation.value, grounded.value];
  if (other === null || result === null || known === null) return null;
  const here = { plan: known.plan, evaluation: result };
  const there = { plan: other.grounded.plan, evaluation: other.evaluation };
  const order = sheets.value.map(({ id }) => id);
  const first = order.indexOf(desk.value.shown) < order.indexOf(other.sheet);
  const found = differences.value;
  const drawn = found?.here === known.plan && found.there === other.grounded.plan ? found.drawn : null;
  return first
    ? { one: here, other: there, drawn }
    : { one: there, other: here, drawn: drawn === null ? null : turned(drawn) };
});
