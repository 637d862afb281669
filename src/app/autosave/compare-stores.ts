import { bodyKey, bodyOf, goneKey, headKey, newestFirst, readHead, readThrownHead, thrownKey } from './kept-plans.ts';
import { type KeepAccess, type KeepStore, type KeptWork, sealedWork } from './kept-work.ts';
import { type CopyShelf, copyText, readCopy } from './second-copy.ts';

/** What came of comparing the two stores when the page was opened. */
export interface Compared {
  /** Works that the first store had lost, or had only older, and that the second one gave back. */
  readonly restored: readonly KeptWork[];
  /** Works that neither store can give any more. */
  readonly lost: number;
  /** Works that a later version of the planner wrote; they are left as they are. */
  readonly later: number;
}

/** Who a work belongs to that was brought back; the tab that opens it takes it over. */
const NOBODY = 'second copy';

/**
 * Compares the browser's database with the second copies. What one has and the other lost is given back; of two the newer one
 * counts. Works that tabs have open are left to those tabs.
 */
export async function compareStores(
  store: KeepStore,
  shelf: CopyShelf | null,
  inUse: ReadonlySet<string>,
): Promise<Compared> {
  const copies =
    shelf === null ? { works: new Map<string, KeptWork>(), later: new Set<string>() } : await copiesOn(shelf);
  const found = await store.transact((access) => settle(access, copies.works, inUse));
  for (const id of found.gone) await shelf?.remove(id).catch(() => undefined);
  await copyAgain(shelf, found.whole, copies);
  const later = new Set([...found.later, ...copies.later]);
  return { restored: found.restored, lost: found.lost, later: later.size };
}

/** The works of the second store, newest first: all there is to go by where the first cannot be looked at. */
export async function worksOnShelf(shelf: CopyShelf | null): Promise<readonly KeptWork[]> {
  return shelf === null ? [] : newestFirst([...(await copiesOn(shelf)).works.values()]);
}

async function copiesOn(shelf: CopyShelf) {
  const works = new Map<string, KeptWork>();
  const later = new Set<string>();
  for (const name of await shelf.names()) {
    const text = await shelf.read(name);
    const read = text === null ? null : readCopy(text);
    if (read?.kind === 'whole') works.set(name, read.work);
    if (read?.kind === 'later') later.add(name);
  }
  return { works, later };
}

interface Settled {
  readonly restored: KeptWork[];
  readonly whole: Map<string, KeptWork>;
  readonly later: Set<string>;
  /** Works that were let go for good, whose copies are still there. */
  readonly gone: string[];
  lost: number;
}

async function settle(
  access: KeepAccess,
  copies: ReadonlyMap<string, KeptWork>,
  inUse: ReadonlySet<string>,
): Promise<Settled> {
  const settled: Settled = { restored: [], whole: new Map(), later: new Set(), gone: [], lost: 0 };
  const start = headKey('');
  const heads = (await access.keys()).filter((key) => key.startsWith(start)).map((key) => key.slice(start.length));
  for (const id of new Set([...heads, ...copies.keys()])) {
    if (!inUse.has(id)) await settleOne(access, { id, copy: copies.get(id) ?? null }, settled);
  }
  return settled;
}

async function settleOne(
  access: KeepAccess,
  { id, copy }: { readonly id: string; readonly copy: KeptWork | null },
  settled: Settled,
): Promise<void> {
  const found = await access.get(headKey(id));
  const head = readHead(found);
  if (found !== undefined && head === null) return void settled.later.add(id);
  if (head === null) {
    // What was thrown away stays thrown away, and can be put back from where it lies.
    if (copy === null || readThrownHead(await access.get(thrownKey(id))) !== null) return;
    if ((await access.get(goneKey(id))) !== undefined) return void settled.gone.push(id);
    return restore(access, copy, { body: 1, settled });
  }
  const read = await bodyOf(access, id, head);
  if (read.kind === 'later') return void settled.later.add(id);
  if (read.kind === 'whole') {
    settled.whole.set(id, read.work);
    if (copy !== null && copy.at > read.work.at) await restore(access, copy, { body: head.body + 1, settled });
  } else if (copy === null) settled.lost++;
  else await restore(access, copy, { body: head.body + 1, settled });
}

async function restore(
  access: KeepAccess,
  work: KeptWork,
  { body, settled }: { readonly body: number; readonly settled: Settled },
): Promise<void> {
  await access.put(bodyKey(work.id, body), sealedWork(work));
  await access.put(headKey(work.id), { owner: NOBODY, body });
  settled.whole.delete(work.id);
  settled.restored.push(work);
}

/** Copies what has no copy, or an older one. */
async function copyAgain(
  shelf: CopyShelf | null,
  whole: ReadonlyMap<string, KeptWork>,
  copies: { readonly works: ReadonlyMap<string, KeptWork>; readonly later: ReadonlySet<string> },
): Promise<void> {
  if (shelf === null) return;
  for (const [id, work] of whole) {
    const copy = copies.works.get(id);
    if (copies.later.has(id) || (copy !== undefined && copy.at >= work.at)) continue;
    await shelf.write(id, copyText(work)).catch(() => undefined);
  }
}
