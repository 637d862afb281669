import { signal } from '@preact/signals';
import type { PlanLink } from './plan-links.ts';

/** Why a plan was not written to its file, while the page says so. */
export type SavingTrouble =
  | { readonly kind: 'changed'; readonly sheet: string; readonly onDisk: PlanLink }
  | { readonly kind: 'failed'; readonly sheet: string; readonly name: string; readonly reason: string };

export const savingTrouble = signal<SavingTrouble | null>(null);

/** Other tabs that have a file of this one open, with the file's name. */
export const alsoOpen = signal<ReadonlyMap<string, string>>(new Map());
