import { signal } from '@preact/signals';
import type { ImportChoices } from '../../plan/exchange/import-choices.ts';
import type { ImportPreview } from '../../plan/exchange/import-preview.ts';
import type { Problem } from '../../units/outcome.ts';

/** What is going on with a file of points and lines. */
export type ImportState =
  | { readonly kind: 'idle' }
  | {
      readonly kind: 'choosing';
      readonly preview: ImportPreview;
      readonly choices: ImportChoices;
      /** Why what is chosen cannot be added. */
      readonly problems: readonly Problem[];
    }
  | { readonly kind: 'refused'; readonly file: string; readonly problems: readonly Problem[] };

export const importing = signal<ImportState>({ kind: 'idle' });
