import type { HeightsRecord } from '../../terrain/open/opened-grid.ts';
import type { ElevationInput } from './elevation-input.ts';

/** What files that were taken along are from. */
export interface TakenFrom {
  readonly recorded: Readonly<Record<string, HeightsRecord>>;
  /** How the plan remembers the files that they are from. */
  readonly references: readonly string[];
}

const KEY = 'rillwright-taken-from';

interface Remembered extends TakenFrom {
  /** Name and bytes of each file. */
  readonly files: readonly (readonly [name: string, bytes: number])[];
}

const signs = (files: readonly ElevationInput[]): Remembered['files'] =>
  files.map((file) => [file.name, file instanceof File ? file.size : -1]);

/** Remembers what files are from beyond the life of the page, which may open them again by itself. */
export function rememberTakenFrom(files: readonly ElevationInput[], from: TakenFrom): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...from, files: signs(files) } satisfies Remembered));
  } catch {
    // Then they open as files of their own.
  }
}

/** What files are from, if they are the ones that were taken along last. */
export function takenFrom(files: readonly ElevationInput[]): TakenFrom | null {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? 'null') as Remembered | null;
    return kept !== null && JSON.stringify(kept.files) === JSON.stringify(signs(files)) ? kept : null;
  } catch {
    return null;
  }
}
