import type { Outcome, Problem } from '../../units/outcome.ts';
import type { Plan } from '../model/plan.ts';

/** What an edit did, for the list of steps to undo; the words are the app's. */
export interface EditLabel {
  /** Stable name such as `move-point`. */
  readonly code: EditCode;
  /** The name of what it was done to; empty when it is about the whole plan. */
  readonly name: string;
}

export type EditCode =
  | 'add-point'
  | 'move-point'
  | 'remove-point'
  | 'rename-point'
  | 'change-point'
  | 'set-standing'
  | 'add-route'
  | 'remove-route'
  | 'change-route'
  | 'draw-route'
  | 'move-vertex'
  | 'insert-vertex'
  | 'delete-vertex'
  | 'set-pipe'
  | 'set-fittings'
  | 'set-trench'
  | 'set-pump'
  | 'set-herd'
  | 'set-readings'
  | 'set-prices'
  | 'set-year'
  | 'set-records'
  | 'set-measurement'
  | 'remove-measurement'
  | 'change-settings'
  | 'name-plan'
  | 'set-units'
  | 'add-area'
  | 'change-area'
  | 'remove-area'
  | 'take-remedy'
  | 'import-items'
  | 'take-changes'
  | 'replace-plan';

/** A plan as an edit left it. */
export interface Edited {
  readonly plan: Plan;
  readonly label: EditLabel;
}

/** An edit gives a valid plan or says what is wrong with it; the plan it started from is never touched. */
export type Edit = Outcome<Edited>;

/** An edit that cannot be made because what it is about is not there, or not of that kind. */
export function refused(code: string, found: string, expected: string): { ok: false; problems: readonly Problem[] } {
  return { ok: false, problems: [{ code, path: '', found, expected }] };
}

/** A part with some of its values changed; the same part when none of them is new. */
export function withChanges<Part extends object>(part: Part, changes: Partial<Part>): Part {
  const isNew = Object.entries(changes).some(([key, value]) => Reflect.get(part, key) !== value);
  return isNew ? { ...part, ...changes } : part;
}

/** The list with one entry changed; the same list when the entry stays as it is. */
export function withEntry<Part>(list: readonly Part[], old: Part, next: Part): readonly Part[] {
  return old === next ? list : list.map((entry) => (entry === old ? next : entry));
}
