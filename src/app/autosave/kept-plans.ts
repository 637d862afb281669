import type { KeepStore } from './keep-store.ts';
import { type KeptWork, readWork } from './kept-work.ts';
import { bodyKey, drop, filesKey, type Head, headKey, newestFirst, readHead, shelved } from './shelf-entries.ts';

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
