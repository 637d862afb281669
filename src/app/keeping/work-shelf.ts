import type { KeepAccess, KeepStore } from './keep-store.ts';
import { isRecord, type KeptWork, notInFile, readWork } from './kept-work.ts';

/** Names which tab a work belongs to and which of its bodies counts. */
interface Head {
  readonly owner: string;
  readonly body: number;
}

/** Works that are in files are kept up to this many, newest first; one that is in no file is never let go by itself. */
const MOST_IN_FILES = 12;

const headKey = (id: string) => `head ${id}`;
const bodyKey = (id: string, body: number) => `body ${id} ${body}`;
const filesKey = (id: string) => `files ${id}`;

/**
 * Keeps a work as it is now, unless another tab has taken it over. The new body is written beside the old one, then the
 * head is switched, then the old body goes: cut off anywhere, what is found is the old work or the new one.
 */
export function writeWork(store: KeepStore, work: KeptWork, owner: string): Promise<'kept' | 'taken'> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(work.id)));
    if (head !== null && head.owner !== owner) return 'taken';
    const next = (head?.body ?? 0) + 1;
    await access.put(bodyKey(work.id, next), work);
    await access.put(headKey(work.id), { owner, body: next } satisfies Head);
    if (head !== null) await access.delete(bodyKey(work.id, head.body));
    return 'kept';
  });
}

/** Makes a work this tab's: what the tab before it still tries to write is refused from here on. */
export function takeWork(store: KeepStore, id: string, owner: string): Promise<KeptWork | null> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(id)));
    if (head === null) return null;
    await access.put(headKey(id), { ...head, owner } satisfies Head);
    return readWork(await access.get(bodyKey(id, head.body)));
  });
}

/** Every work that is kept, newest first. */
export function listWorks(store: KeepStore): Promise<readonly KeptWork[]> {
  return store.transact(async (access) => newestFirst(await works(access)));
}

/** Lets a work go. Its head goes first: a body without one counts for nothing. */
export function dropWork(store: KeepStore, id: string): Promise<void> {
  return store.transact((access) => drop(access, id));
}

/** Clears away what counts for nothing, and the oldest of the works that are in files. */
export function tidyShelf(store: KeepStore, inUse: ReadonlySet<string>): Promise<void> {
  return store.transact(async (access) => {
    const inFiles = newestFirst(await works(access)).filter((work) => !notInFile(work) && !inUse.has(work.id));
    for (const { id } of inFiles.slice(MOST_IN_FILES)) await drop(access, id);
    for (const key of await access.keys()) {
      const [kind, id = '', body] = key.split(' ');
      if (kind === 'head') continue;
      const head = readHead(await access.get(headKey(id)));
      if (head === null || (kind === 'body' && head.body !== Number(body))) await access.delete(key);
    }
  });
}

/** Keeps what is needed to open a work's elevation again, beside the work. */
export function writeFiles(store: KeepStore, id: string, files: unknown): Promise<void> {
  return store.transact((access) => access.put(filesKey(id), files));
}

export function readFiles(store: KeepStore, id: string): Promise<unknown> {
  return store.transact((access) => access.get(filesKey(id)));
}

async function works(access: KeepAccess): Promise<readonly KeptWork[]> {
  const found: KeptWork[] = [];
  for (const key of await access.keys()) {
    if (!key.startsWith('head ')) continue;
    const head = readHead(await access.get(key));
    const id = key.slice('head '.length);
    const work = head === null ? null : readWork(await access.get(bodyKey(id, head.body)));
    if (work !== null) found.push(work);
  }
  return found;
}

async function drop(access: KeepAccess, id: string): Promise<void> {
  await access.delete(headKey(id));
  for (const key of await access.keys()) {
    const [kind, of] = key.split(' ');
    if (of === id && kind !== 'head') await access.delete(key);
  }
}

function newestFirst(found: readonly KeptWork[]): readonly KeptWork[] {
  return [...found].sort((a, b) => b.at - a.at);
}

function readHead(found: unknown): Head | null {
  if (!isRecord(found) || typeof found.owner !== 'string' || typeof found.body !== 'number') return null;
  return { owner: found.owner, body: found.body };
}
