import { computed, signal } from '@preact/signals';
import type { History } from '../../plan/edits/history.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { demo, history, savedPlan } from './store.ts';

/** One of the plans that are worked on side by side, each with its own steps to undo. */
export interface Sheet {
  readonly id: string;
  readonly history: History;
  /** The plan as it was last saved or opened. */
  readonly savedPlan: Plan;
  readonly demo: boolean;
}

/** A plan and its alternatives. The sheet that is shown lives in the store; here it is as it was when it was turned to. */
export interface Desk {
  readonly id: string;
  readonly shown: string;
  readonly sheets: readonly Sheet[];
}

export function newId(): string {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** A desk with nothing on it but the plan of the store. */
export function deskOfStore(): Desk {
  const sheet = { id: newId(), history: history.peek(), savedPlan: savedPlan.peek(), demo: demo.peek() };
  return { id: newId(), shown: sheet.id, sheets: [sheet] };
}

export const desk = signal<Desk>(deskOfStore());

/** Every sheet as it is at the moment. */
export const sheets = computed<readonly Sheet[]>(() =>
  desk.value.sheets.map((sheet) =>
    sheet.id === desk.value.shown
      ? { id: sheet.id, history: history.value, savedPlan: savedPlan.value, demo: demo.value }
      : sheet,
  ),
);

/** Plans that were handed to the browser as a download: whether that came to the disk is not known. */
export const handedOver = new WeakSet<Plan>();

export function isUnsaved(sheet: Sheet): boolean {
  return sheet.history.present !== sheet.savedPlan;
}

/** Whether a sheet is as it was handed to the browser, and not known to be on disk. */
export function isHanded(sheet: Sheet): boolean {
  return !isUnsaved(sheet) && handedOver.has(sheet.history.present);
}

/** The sheet that was deleted last, and where it lay. */
export const deletedSheet = signal<{ readonly sheet: Sheet; readonly at: number } | null>(null);
