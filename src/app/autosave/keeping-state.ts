import { signal } from '@preact/signals';
import type { Compared } from './compare-stores.ts';
import type { KeepingState } from './keeper.ts';
import type { KeptTerrain } from './kept-files.ts';
import type { FileReference, KeptWork } from './kept-work.ts';

export const keeping = signal<KeepingState>({ kind: 'idle' });

/** What was found when the page opened: works that are in no file, and works that another tab has open. */
export interface Found {
  readonly left: readonly KeptWork[];
  readonly elsewhere: readonly KeptWork[];
}

export const found = signal<Found>({ left: [], elsewhere: [] });

/** Every work kept in this browser, newest first, as it was looked at last; null when it cannot be looked at. */
export const keptWorks = signal<readonly KeptWork[] | null>([]);
/** Works that were thrown away and can still be put back, newest first. */
export const thrownWorks = signal<readonly KeptWork[]>([]);
/** What of the elevation of each work is kept beside it, by the work's id. */
export const keptTerrain = signal<ReadonlyMap<string, KeptTerrain>>(new Map());
/** Whether the list of kept work is open. */
export const keptListOpen = signal(false);
/** The works that tabs have open. */
export const openWorks = signal<ReadonlySet<string>>(new Set());

/** The work that another plan took the place of, while the page still says so. */
export const putAside = signal<KeptWork | null>(null);

/** Elevation files of the work that was opened and that have to be chosen again. */
export const filesMissing = signal<readonly FileReference[]>([]);

/** Why a kept work could not be opened. */
export const keptRefusal = signal<string | null>(null);

/** What came of comparing the two stores, while the page says so. */
export const compared = signal<Compared | null>(null);
