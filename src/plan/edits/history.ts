import type { Plan } from '../model/plan.ts';
import type { Edited, EditLabel } from './edit.ts';

/** A plan that was left, and the edit that led away from it (or, for undone steps, to it). */
export interface Step {
  readonly plan: Plan;
  readonly label: EditLabel;
}

/**
 * The plans that led to the present one and those that were undone, each with the edit's label.
 *
 * `past` is oldest first and each entry holds the plan before its edit; `future` holds the plan after its edit, next one
 * first. A draft is a plan shown while something is dragged: it is no step until it is committed.
 */
export interface History {
  readonly past: readonly Step[];
  readonly present: Plan;
  readonly future: readonly Step[];
  readonly draft: Edited | null;
}

/** Older steps than this are forgotten. */
export const mostSteps = 500;

export function startHistory(plan: Plan): History {
  return { past: [], present: plan, future: [], draft: null };
}

/** The plan to show: the draft while something is dragged, else the present one. */
export function shownPlan(history: History): Plan {
  return history.draft?.plan ?? history.present;
}

/** Makes an edit of the present plan a step; an edit that changed nothing is none. */
export function commit(history: History, { plan, label }: Edited): History {
  if (plan === history.present) return { ...history, draft: null };
  const past = [...history.past, { plan: history.present, label }].slice(-mostSteps);
  return { past, present: plan, future: [], draft: null };
}

/** Shows an edit of the present plan while it is still being made; a later draft takes its place. */
export function draftEdit(history: History, edited: Edited): History {
  return { ...history, draft: edited };
}

/** Ends a drag: what it led to becomes one step. */
export function commitDraft(history: History): History {
  return history.draft === null ? history : commit(history, history.draft);
}

/** Gives a drag up. */
export function dropDraft(history: History): History {
  return history.draft === null ? history : { ...history, draft: null };
}

/** Goes one step back; unchanged when there is none. An unfinished drag is given up first. */
export function undo(history: History): History {
  const step = history.past.at(-1);
  if (step === undefined) return dropDraft(history);
  return {
    past: history.past.slice(0, -1),
    present: step.plan,
    future: [{ plan: history.present, label: step.label }, ...history.future],
    draft: null,
  };
}

/** Makes the step undone last again; unchanged when there is none. */
export function redo(history: History): History {
  const [step, ...future] = history.future;
  if (step === undefined) return dropDraft(history);
  const past = [...history.past, { plan: history.present, label: step.label }];
  return { past, present: step.plan, future, draft: null };
}

/** How many steps led to the present plan; 0 is before the oldest one that is still known. */
export function stepsTaken(history: History): number {
  return history.past.length;
}

/** Goes back or forward to where so many steps have been taken; stops at the first or the last one. */
export function goToStep(history: History, steps: number): History {
  const wanted = Math.min(Math.max(0, steps), history.past.length + history.future.length);
  let now = dropDraft(history);
  while (stepsTaken(now) > wanted) now = undo(now);
  while (stepsTaken(now) < wanted) now = redo(now);
  return now;
}
