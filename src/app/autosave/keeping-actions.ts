import { problemSentence } from '../../report/words/refusal-words.ts';
import { layOut } from '../actions/desk-actions.ts';
import { openTerrainFiles } from '../actions/terrain-actions.ts';
import { desk } from '../state/alternatives.ts';
import { announcement, history } from '../state/store.ts';
import { compareStores } from './compare-stores.ts';
import { expectFiles, isOpenTerrain } from './desk-files.ts';
import { keeper, lock, owner, setAside, shelf, store } from './keep-desk.ts';
import {
  compared,
  filesMissing,
  found,
  keeping,
  keptListOpen,
  keptRefusal,
  keptWorks,
  openWorks,
  putAside,
} from './keeping-state.ts';
import { fileAgain, readKeptFiles } from './kept-files.ts';
import { leaveFound, lookAtKept } from './kept-list-actions.ts';
import { readFiles, takeWork } from './kept-plans.ts';
import { type KeptWork, neverHanded } from './kept-work.ts';
import { withinPatience } from './patience.ts';
import { tidyShelf } from './trash.ts';
import { deskOfWork } from './work-of-alternatives.ts';

interface TabMessage {
  /** A work that its tab is asked to let go. */
  readonly give: string;
}

const channel = new BroadcastChannel('rillwright');

/** Finds what was left behind: what is in no file and in no tab, and what other tabs have open. */
export async function findLeft(): Promise<void> {
  await compareAtStart();
  await lookAtKept();
  const mine = desk.value.id;
  const works = (keptWorks.value ?? []).filter((work) => work.id !== mine && neverHanded(work));
  const elsewhere = works.filter(({ id }) => openWorks.value.has(id));
  found.value = { left: works.filter((work) => !elsewhere.includes(work)), elsewhere };
  await tidyShelf(store, { inUse: openWorks.value, now: Date.now() }).catch(() => undefined);
}

/** Gives back what one of the two stores has lost, and tells it. */
async function compareAtStart(): Promise<void> {
  try {
    const found = await withinPatience(lock.held().then((inUse) => compareStores(store, shelf, inUse)));
    if (found.restored.length + found.lost + found.later > 0) compared.value = found;
  } catch {
    // A store that cannot be looked at is told of as soon as something is to be kept in it.
  }
}

export function hideCompared(): void {
  compared.value = null;
}

/** Opens a kept work; one that another tab has open is taken over from it. */
export async function openWork(work: KeptWork): Promise<void> {
  keptListOpen.value = false;
  await keeper.settled();
  if ((await lock.held()).has(work.id)) channel.postMessage({ give: work.id } satisfies TabMessage);
  await lock.takeOver(work.id);
  keeper.takeUp(work.id);
  const newest = await withinPatience(takeWork(store, work.id, owner)).catch(() => null);
  await show(newest ?? work, { asCopy: false });
}

/** Opens a work of another tab as one of its own. */
export async function openCopy(work: KeptWork): Promise<void> {
  keptListOpen.value = false;
  await keeper.settled();
  await show(work, { asCopy: true });
}

async function show(work: KeptWork, { asCopy }: { readonly asCopy: boolean }): Promise<void> {
  leaveFound(work);
  const opened = deskOfWork(work, { asCopy });
  if (!opened.ok) {
    keptRefusal.value = opened.problems.map(problemSentence).join(' ');
    return;
  }
  const kept = readKeptFiles(await withinPatience(readFiles(store, work.id)).catch(() => null));
  const aside = keeping.value;
  if ('work' in aside && aside.work.id !== work.id) setAside(aside);
  if (!isOpenTerrain(work.files)) expectFiles(asCopy ? kept : [], work.files);
  if (!asCopy) {
    await lock.hold(work.id);
    keeping.value = { kind: 'kept', work };
  }
  layOut(opened.value);
  announcement.value = `Opened: ${history.value.present.name}`;
  if (work.files.length > 0 && !isOpenTerrain(work.files))
    await openAgain(work, await Promise.all(kept.map(fileAgain)));
}

async function openAgain(work: KeptWork, files: readonly (File | null)[]): Promise<void> {
  const there = files.filter((file) => file !== null);
  if (there.length === work.files.length) await openTerrainFiles(there);
  else filesMissing.value = work.files;
}

export function hidePutAside(): void {
  putAside.value = null;
}

export function hideKeptRefusal(): void {
  keptRefusal.value = null;
}

/** Lets a work go when another tab asks for it: first everything is written, then the lock goes. */
export function answerOtherTabs(): void {
  channel.onmessage = async ({ data }: MessageEvent<TabMessage>) => {
    if (data.give !== desk.value.id) return;
    await keeper.settled();
    const state = keeping.value;
    if ('work' in state) keeper.giveUp(state.work);
    lock.release();
  };
}
