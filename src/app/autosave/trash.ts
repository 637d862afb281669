import {
  bodyKey,
  drop,
  goneKey,
  headKey,
  newestFirst,
  PARTS,
  readHead,
  readThrownHead,
  shelved,
  type ThrownHead,
  thrownKey,
} from './kept-plans.ts';
import { type KeepAccess, type KeepStore, type KeptWork, notInFile, readWork } from './kept-work.ts';

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

/**
 * Clears away what counts for nothing, what was thrown away long ago, and the oldest of the works that are in files. What this
 * version does not understand is left as it is: a later one wrote it.
 */
export function tidyShelf(store: KeepStore, { inUse, now }: Tidying): Promise<void> {
  return store.transact(async (access) => {
    const works = (await shelved(access, headKey, readHead)).map(({ work }) => work);
    const inFiles = newestFirst(works).filter((work) => !notInFile(work) && !inUse.has(work.id));
    for (const { id } of inFiles.slice(MOST_IN_FILES)) await drop(access, id, now);
    for (const key of await access.keys()) {
      const [kind = '', id = '', body] = key.split(' ');
      if (kind === 'gone') await tidyGone(access, key, now);
      else if (PARTS.has(kind) && (await isLeftOver(access, { kind, id, body: Number(body), now }))) {
        if (kind === 'thrown') await access.put(goneKey(id), now);
        await access.delete(key);
      }
    }
  });
}

/** Second copies are gone long before this, ms. */
const GONE_FOR_MS = 30 * THROWN_FOR_MS;

async function tidyGone(access: KeepAccess, key: string, now: number): Promise<void> {
  const at = await access.get(key);
  if (typeof at === 'number' && now - at >= GONE_FOR_MS) await access.delete(key);
}

async function isLeftOver(
  access: KeepAccess,
  { kind, id, body, now }: { readonly kind: string; readonly id: string; readonly body: number; readonly now: number },
): Promise<boolean> {
  const [atHead, atThrown] = [await access.get(headKey(id)), await access.get(thrownKey(id))];
  const [kept, thrown] = [readHead(atHead), readThrownHead(atThrown)];
  if ((kept === null && atHead !== undefined) || (thrown === null && atThrown !== undefined)) return false;
  const head = kept ?? (thrown !== null && now - thrown.at < THROWN_FOR_MS ? thrown : null);
  if (kind === 'thrown') return kept !== null || head === null;
  if (kind === 'files') return head === null;
  if (kind === 'body' && readWork(await access.get(bodyKey(id, body))).kind === 'later') return false;
  return head?.body !== body;
}
