import {
  isRecord,
  type KeepAccess,
  type KeepStore,
  type KeptWork,
  type ReadWork,
  readWork,
  sealedWork,
} from './kept-work.ts';
import { type LateWork, withLate } from './late-work.ts';

/** Names which tab a work belongs to and which of its bodies counts. */
export interface Head {
  readonly owner: string;
  readonly body: number;
}

/** The head of a work that was thrown away, and when, ms since 1970. */
export interface ThrownHead extends Head {
  readonly at: number;
}

export const headKey = (id: string) => `head ${id}`;
export const thrownKey = (id: string) => `thrown ${id}`;
export const bodyKey = (id: string, body: number) => `body ${id} ${body}`;
export const lateKey = (id: string, body: number) => `late ${id} ${body}`;
export const goneKey = (id: string) => `gone ${id}`;
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
    const body = head === null ? null : await bodyOf(access, key.slice(start.length), head);
    if (head !== null && body?.kind === 'whole') found.push({ head, work: body.work });
  }
  return found;
}

/** What a head leads to: its body with what was kept of it later. */
export async function bodyOf(access: KeepAccess, id: string, { body }: Head): Promise<ReadWork> {
  const read = readWork(await access.get(bodyKey(id, body)));
  if (read.kind !== 'whole') return read;
  return { kind: 'whole', work: withLate(read.work, await access.get(lateKey(id, body))) };
}

/** Lets everything of a work go. First it is said that it is gone, so that no second copy brings it back; then its head goes. */
export async function drop(access: KeepAccess, id: string, at: number): Promise<void> {
  await access.put(goneKey(id), at);
  await access.delete(headKey(id));
  for (const key of await access.keys()) {
    const [kind = '', of] = key.split(' ');
    if (of === id && PARTS.has(kind)) await access.delete(key);
  }
}

/** What a work consists of beside its head. */
export const PARTS: ReadonlySet<string> = new Set(['body', 'late', 'files', 'thrown']);

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
export async function writeWork(store: KeepStore, work: KeptWork, owner: string): Promise<'kept' | 'taken'> {
  return (await writeWhole(store, work, owner)) === null ? 'taken' : 'kept';
}

/** The same; gives the number of the new body, null where another tab has the work. */
export function writeWhole(store: KeepStore, work: KeptWork, owner: string): Promise<number | null> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(work.id)));
    if (head !== null && head.owner !== owner) return null;
    const next = (head?.body ?? 0) + 1;
    await access.put(bodyKey(work.id, next), sealedWork(work));
    await access.put(headKey(work.id), { owner, body: next } satisfies Head);
    if (head !== null) await access.delete(bodyKey(work.id, head.body));
    return next;
  });
}

/** Keeps what has changed since a body was written, beside it; 'gone' where that body is not the work's any more. */
export function writeLate(
  store: KeepStore,
  late: LateWork,
  { id, body, owner }: { readonly id: string; readonly body: number; readonly owner: string },
): Promise<'kept' | 'taken' | 'gone'> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(id)));
    if (head !== null && head.owner !== owner) return 'taken';
    if (head?.body !== body) return 'gone';
    await access.put(lateKey(id, body), late);
    return 'kept';
  });
}

/** Makes a work this tab's: what the tab before it still tries to write is refused from here on. */
export function takeWork(store: KeepStore, id: string, owner: string): Promise<KeptWork | null> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(id)));
    if (head === null) return null;
    await access.put(headKey(id), { ...head, owner } satisfies Head);
    const read = await bodyOf(access, id, head);
    return read.kind === 'whole' ? read.work : null;
  });
}

/** Every work that is kept, newest first. */
export function listWorks(store: KeepStore): Promise<readonly KeptWork[]> {
  return store.transact(async (access) =>
    newestFirst((await shelved(access, headKey, readHead)).map(({ work }) => work)),
  );
}

/** Lets a work go for good. */
export function dropWork(store: KeepStore, id: string, at: number): Promise<void> {
  return store.transact((access) => drop(access, id, at));
}

/** Keeps what is needed to open a work's elevation again, beside the work. */
export function writeFiles(store: KeepStore, id: string, files: unknown): Promise<void> {
  return store.transact((access) => access.put(filesKey(id), files));
}

export function readFiles(store: KeepStore, id: string): Promise<unknown> {
  return store.transact((access) => access.get(filesKey(id)));
}

/** Marks plans of a work as handed to the browser; its time stays, for nothing of it has changed. */
export function markHanded(store: KeepStore, id: string, plans: ReadonlySet<string>): Promise<void> {
  return store.transact(async (access) => {
    const head = readHead(await access.get(headKey(id)));
    const read = head === null ? null : await bodyOf(access, id, head);
    if (head === null || read?.kind !== 'whole') return;
    const { work } = read;
    const marked = work.plans.map((plan) => (plans.has(plan.id) && !plan.saved ? { ...plan, handed: true } : plan));
    await access.put(bodyKey(id, head.body), sealedWork({ ...work, plans: marked }));
    await access.delete(lateKey(id, head.body));
  });
}
