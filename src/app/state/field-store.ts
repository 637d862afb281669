import { signal } from '@preact/signals';
import type { FieldChange, Returned } from '../../plan/exchange/field-changes.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { Problem } from '../../units/outcome.ts';

/** What is said of a file for out of doors: made or opened, with what is not in it. */
export interface FieldNote {
  readonly file: string;
  readonly made: boolean;
  readonly missing: readonly string[];
}

/** What came back, while it is being looked at. */
export type MergeState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'refused'; readonly file: string; readonly problems: readonly Problem[] }
  | {
      readonly kind: 'choosing';
      readonly file: string;
      readonly back: Returned;
      readonly changes: readonly FieldChange[];
      /** Keys of the changes that are taken. */
      readonly chosen: ReadonlySet<string>;
      readonly problems: readonly Problem[];
    };

/** What is said of a link with a plan: copied, shown to be copied by hand, too long, or opened. */
export type LinkNote =
  | { readonly kind: 'copied'; readonly letters: number }
  | { readonly kind: 'by-hand'; readonly link: string }
  | { readonly kind: 'too-long'; readonly letters: number }
  | { readonly kind: 'opened'; readonly files: readonly string[] };

export const linkNote = signal<LinkNote | null>(null);
export const merging = signal<MergeState>({ kind: 'idle' });
export const fieldNote = signal<FieldNote | null>(null);
/** Whether a file for out of doors is being made. */
export const bundling = signal(false);
/** The plan as it was when it came out of such a file; null for a plan of this device. */
export const takenAs = signal<Plan | null>(null);
