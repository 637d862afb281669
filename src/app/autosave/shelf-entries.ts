import type { KeepAccess } from './keep-store.ts';
import { isRecord, type KeptWork, readWork } from './kept-work.ts';

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
export const filesKey = (id: string) => `files ${id}`;

/** A work that is kept, or that was thrown away and can be put back. */
export interface Shelved<T extends Head> {
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
