import { batch } from '@preact/signals';
import { safeFileName } from '../../report/words/safe-file-name.ts';
import { saveSheet } from '../actions/desk-actions.ts';
import { download } from '../actions/plan-file-actions.ts';
import { desk } from '../state/alternatives.ts';
import { announcement } from '../state/store.ts';
import { worksOnShelf } from './compare-stores.ts';
import { keeper, lock, shelf, store } from './keep-desk.ts';
import { found, keptListOpen, keptTerrain, keptWorks, openWorks, putAside, thrownWorks } from './keeping-state.ts';
import { type KeptTerrain, readKeptFiles, terrainKept } from './kept-files.ts';
import { dropWork, listWorks, markHanded, readFiles } from './kept-plans.ts';
import { type KeptPlan, type KeptWork, workName } from './kept-work.ts';
import { withinPatience } from './patience.ts';
import { listThrown, putBack, throwAway } from './trash.ts';

/** Where a kept work is at the moment. */
export type WorkPlace = 'here' | 'elsewhere' | 'closed' | 'thrown';

/** Looks what is kept in this browser and who has it open. */
export async function lookAtKept(): Promise<void> {
  try {
    await keeper.settled();
    const looking = Promise.all([listWorks(store), listThrown(store), lock.held()]);
    const [works, thrown, held] = await withinPatience(looking);
    batch(() => {
      keptWorks.value = works;
      thrownWorks.value = thrown;
      openWorks.value = held;
    });
  } catch {
    const copies = await worksOnShelf(shelf).catch(() => []);
    keptWorks.value = copies.length === 0 ? null : copies;
  }
}

export async function openKeptList(): Promise<void> {
  keptListOpen.value = true;
  await lookAtKept();
  const works = [...(keptWorks.value ?? []), ...thrownWorks.value];
  const terrains = await Promise.all(works.map(async (work) => [work.id, await terrainOf(work)] as const));
  keptTerrain.value = new Map(terrains);
}

async function terrainOf(work: KeptWork): Promise<KeptTerrain> {
  const kept = readKeptFiles(await withinPatience(readFiles(store, work.id)).catch(() => null));
  return terrainKept(work.files, kept);
}

export function closeKeptList(): void {
  keptListOpen.value = false;
}

export function placeOf(work: KeptWork): WorkPlace {
  if (thrownWorks.value.some(({ id }) => id === work.id)) return 'thrown';
  if (work.id === desk.value.id) return 'here';
  return openWorks.value.has(work.id) ? 'elsewhere' : 'closed';
}

/** Leaves what was found where it is: in the list of kept work. */
export function leaveFound({ id }: KeptWork): void {
  const others = (all: readonly KeptWork[]) => all.filter((work) => work.id !== id);
  found.value = { left: others(found.value.left), elsewhere: others(found.value.elsewhere) };
  if (putAside.value?.id === id) putAside.value = null;
}

/** Takes a work out of the list; it can be put back for a day. */
export async function deleteWork(work: KeptWork): Promise<void> {
  leaveFound(work);
  await throwAway(store, work.id, Date.now()).catch(() => undefined);
  await lookAtKept();
  announcement.value = `Deleted: ${workName(work)}`;
}

export async function putWorkBack(work: KeptWork): Promise<void> {
  await putBack(store, work.id).catch(() => undefined);
  await lookAtKept();
  announcement.value = `Put back: ${workName(work)}`;
}

export async function deleteForGood(work: KeptWork): Promise<void> {
  await dropWork(store, work.id, Date.now()).catch(() => undefined);
  await shelf?.remove(work.id).catch(() => undefined);
  await lookAtKept();
  announcement.value = `Deleted for good: ${workName(work)}`;
}

/** Hands a plan of a kept work to the browser as a file. Of a work that a tab has open, that tab knows what is saved. */
export async function saveKeptPlan(work: KeptWork, plan: KeptPlan): Promise<void> {
  const place = placeOf(work);
  if (place === 'here') saveSheet(plan.id);
  else download(plan.text, { name: `${safeFileName(plan.name, 'plan')}.geojson`, type: 'application/geo+json' });
  if (place === 'closed') await markHanded(store, work.id, new Set([plan.id])).catch(() => undefined);
  await lookAtKept();
}
