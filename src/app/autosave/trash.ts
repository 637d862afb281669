import {
  drop,
  headKey,
  newestFirst,
  readHead,
  readThrownHead,
  shelved,
  type ThrownHead,
  thrownKey,
} from './kept-plans.ts';
import type { KeepStore } from './kept-work.ts';
import { type KeptWork, notInFile } from './kept-work.ts';

/** Works that are in files are kept up to this many, newest first; one that is in no file is never let go by itself. */
const MOST_IN_FILES = 12;

/** What was thrown away can be put back for this long, ms. */
export const THROWN_FOR_MS = 24 * 60 * 60 * 1000;

/** Takes a work out of the list; its body and its elevation stay where they are, so that it can be put back. */
export function throwAway(store: KeepStore, id: string, at: number): Promise<void> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(id)));
    if (head === null) return;
    await access.put(thrownKey(id), { ...head, at } satisfies ThrownHead);
    await access.delete(headKey(id));
  });
}

/** Puts a work that was thrown away back into the list; one that a tab has kept anew meanwhile stays as that tab has it. */
export function putBack(store: KeepStore, id: string): Promise<void> {
  return store.transact(async (access) => {
    const head = readThrownHead(await access.get(thrownKey(id)));
    const kept = readHead(await access.get(headKey(id)));
    if (head !== null && kept === null) await access.put(headKey(id), { owner: head.owner, body: head.body });
    await access.delete(thrownKey(id));
  });
}

/** The works that were thrown away and can be put back, newest first. */
export function listThrown(store: KeepStore): Promise<readonly KeptWork[]> {
  return store.transact(async (access) => {
    const kept = new Set((await shelved(access, headKey, readHead)).map(({ work }) => work.id));
    const thrown = (await shelved(access, thrownKey, readThrownHead)).map(({ work }) => work);
    return newestFirst(thrown.filter(({ id }) => !kept.has(id)));
  });
}

export interface Tidying {
  /** Works that tabs have open. */
  readonly inUse: ReadonlySet<string>;
  readonly now: number;
}

/** Clears away what counts for nothing, what was thrown away long ago, and the oldest of the works that are in files. */
export function tidyShelf(store: KeepStore, { inUse, now }: Tidying): Promise<void> {
  return store.transact(async (access) => {
    const works = (await shelved(access, headKey, readHead)).map(({ work }) => work);
    const inFiles = newestFirst(works).filter((work) => !notInFile(work) && !inUse.has(work.id));
    for (const { id } of inFiles.slice(MOST_IN_FILES)) await drop(access, id);
    for (const key of await access.keys()) {
      const [kind, id = '', body] = key.split(' ');
      if (kind === 'head') continue;
      const kept = readHead(await access.get(headKey(id)));
      const thrown = readThrownHead(await access.get(thrownKey(id)));
      const head = kept ?? (thrown !== null && now - thrown.at < THROWN_FOR_MS ? thrown : null);
      const counts = kind === 'thrown' ? kept === null && head !== null : head !== null;
      if (!counts || (kind === 'body' && head?.body !== Number(body))) await access.delete(key);
    }
  });
}
