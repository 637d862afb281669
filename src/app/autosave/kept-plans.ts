import { isRecord, type KeepAccess, type KeepStore, type KeptWork, readWork } from './kept-work.ts';

/** Names which tab a work belongs to and which of its bodies counts. */
interface Head {
  readonly owner: string;
  readonly body: number;
}

/** The head of a work that was thrown away, and when, ms since 1970. */
export interface ThrownHead extends Head {
  readonly at: number;
}

export const headKey = (id: string) => `head ${id}`;
export const thrownKey = (id: string) => `thrown ${id}`;
const bodyKey = (id: string, body: number) => `body ${id} ${body}`;
const filesKey = (id: string) => `files ${id}`;

/** A work that is kept, or that was thrown away and can be put back. */
interface Shelved<T extends Head> {
  readonly head: T;
  readonly work: KeptWork;
}

/** Every work under keys of one kind that can be read. */
export async function shelved<T extends Head>(
  access: KeepAccess,
  keyOf: (id: string) => string,
  read: (found: unknown) => T | null,
): Promise<readonly Shelved<T>[]> {
  const found: Shelved<T>[] = [];
  const start = keyOf('');
  for (const key of await access.keys()) {
    if (!key.startsWith(start)) continue;
    const head = read(await access.get(key));
    const work = head === null ? null : readWork(await access.get(bodyKey(key.slice(start.length), head.body)));
    if (head !== null && work !== null) found.push({ head, work });
  }
  return found;
}

/** Lets everything of a work go. Its head goes first: a body without one counts for nothing. */
export async function drop(access: KeepAccess, id: string): Promise<void> {
  await access.delete(headKey(id));
  for (const key of await access.keys()) {
    const [kind, of] = key.split(' ');
    if (of === id && kind !== 'head') await access.delete(key);
  }
}

export function newestFirst(found: readonly KeptWork[]): readonly KeptWork[] {
  return [...found].sort((a, b) => b.at - a.at);
}

export function readHead(found: unknown): Head | null {
  if (!isRecord(found) || typeof found.owner !== 'string' || typeof found.body !== 'number') return null;
  return { owner: found.owner, body: found.body };
}

export function readThrownHead(found: unknown): ThrownHead | null {
  const head = readHead(found);
  return head === null || !isRecord(found) || typeof found.at !== 'number' ? null : { ...head, at: found.at };
}

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
  return store.transact(async (access) =>
    newestFirst((await shelved(access, headKey, readHead)).map(({ work }) => work)),
  );
}

/** Lets a work go for good. */
export function dropWork(store: KeepStore, id: string): Promise<void> {
  return store.transact((access) => drop(access, id));
}

/** Keeps what is needed to open a work's elevation again, beside the work. */
export function writeFiles(store: KeepStore, id: string, files: unknown): Promise<void> {
  return store.transact((access) => access.put(filesKey(id), files));
}

export function readFiles(store: KeepStore, id: string): Promise<unknown> {
  return store.transact((access) => access.get(filesKey(id)));
}

/** Marks the plans of a work as being in files; its time stays, for nothing of it has changed. */
export function markInFile(store: KeepStore, id: string, plans: ReadonlySet<string>): Promise<void> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(id)));
    const work = head === null ? null : readWork(await access.get(bodyKey(id, head.body)));
    if (head === null || work === null) return;
    const marked = work.plans.map((plan) => (plans.has(plan.id) ? { ...plan, saved: true } : plan));
    await access.put(bodyKey(id, head.body), { ...work, plans: marked } satisfies KeptWork);
  });
}
