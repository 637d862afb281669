import { describe, expect, it } from 'vitest';
import {
  dropWork,
  listWorks,
  markHanded,
  takeWork,
  writeFiles,
  writeWork,
} from '../../../src/app/autosave/kept-plans.ts';
import type { KeepStore } from '../../../src/app/autosave/kept-work.ts';
import { listThrown, putBack, THROWN_FOR_MS, throwAway, tidyShelf } from '../../../src/app/autosave/trash.ts';
import { Killed, StoreInMemory } from './store-in-memory.ts';
import { workMade } from './work-made.ts';

const TAB = 'this tab';
const OTHER = 'another tab';

type Doing = (store: KeepStore) => Promise<unknown>;

/** The texts found after a kill at every write of what is done, from none made to all made. */
async function afterEveryKill(before: StoreInMemory, doing: Doing): Promise<(readonly string[])[]> {
  const whole = new StoreInMemory(before.values);
  await doing(whole);
  const found = [];
  for (let dieAt = 0; dieAt <= whole.writes; dieAt++) {
    const store = new StoreInMemory(before.values, dieAt);
    const end = await doing(store).catch((error: unknown) => error);
    expect(end instanceof Killed).toBe(dieAt < whole.writes);
    found.push(await textsIn(new StoreInMemory(store.values)));
  }
  return found;
}

async function textsIn(store: KeepStore): Promise<readonly string[]> {
  return (await listWorks(store)).flatMap(({ plans }) => plans.map(({ text }) => text));
}

describe('work that is kept', () => {
  it('is found again as it was written last', async () => {
    const store = new StoreInMemory();
    for (const text of ['one', 'two', 'three']) await writeWork(store, workMade('a', text), TAB);
    expect(await textsIn(store)).toEqual(['three']);
    expect([...store.values.keys()].sort()).toEqual(['body a 3', 'head a']);
  });

  it('is the old plan or the new one after a kill between any two writes, and never neither', async () => {
    const store = new StoreInMemory();
    await writeWork(store, workMade('a', 'old'), TAB);
    const found = await afterEveryKill(store, (killed) => writeWork(killed, workMade('a', 'new'), TAB));
    expect(found).toEqual([['old'], ['old'], ['new'], ['new']]);
  });

  it('is nothing or the whole plan after a kill in its first writing', async () => {
    const found = await afterEveryKill(new StoreInMemory(), (store) => writeWork(store, workMade('a', 'new'), TAB));
    expect(found).toEqual([[], [], ['new']]);
  });

  it('goes on from whatever a kill left: the next writing is found whole', async () => {
    const old = new StoreInMemory();
    await writeWork(old, workMade('a', 'old'), TAB);
    for (const dieAt of [0, 1, 2, 3]) {
      const killed = new StoreInMemory(old.values, dieAt);
      await writeWork(killed, workMade('a', 'new'), TAB).catch(() => undefined);
      const again = new StoreInMemory(killed.values);
      await takeWork(again, 'a', OTHER);
      await writeWork(again, workMade('a', 'newest'), OTHER);
      expect(await textsIn(again)).toEqual(['newest']);
      await tidyShelf(again, { inUse: new Set(), now: 0 });
      expect([...again.values.keys()].filter((key) => key.startsWith('body'))).toHaveLength(1);
    }
  });

  it('is there or gone after a kill while it is deleted, and other work is untouched', async () => {
    const store = new StoreInMemory();
    await writeWork(store, workMade('a', 'deleted', { at: 1 }), TAB);
    await writeFiles(store, 'a', ['bytes']);
    await writeWork(store, workMade('b', 'other'), TAB);
    const found = await afterEveryKill(store, (killed) => dropWork(killed, 'a', 7));
    expect(found).toEqual([['deleted', 'other'], ['deleted', 'other'], ['other'], ['other'], ['other']]);
  });

  it('is refused from a tab that it was taken over from, at every moment of taking over', async () => {
    const store = new StoreInMemory();
    await writeWork(store, workMade('a', 'first'), TAB);
    const found = await afterEveryKill(store, (killed) => takeWork(killed, 'a', OTHER));
    expect(found).toEqual([['first'], ['first']]);
    await takeWork(store, 'a', OTHER);
    expect(await writeWork(store, workMade('a', 'of the tab before'), TAB)).toBe('taken');
    expect(await textsIn(store)).toEqual(['first']);
    expect(await writeWork(store, workMade('a', 'of the tab now'), OTHER)).toBe('kept');
    expect(await textsIn(store)).toEqual(['of the tab now']);
  });

  it('is not torn by what a later version or a stranger wrote beside it', async () => {
    const store = new StoreInMemory();
    await writeWork(store, workMade('a', 'mine'), TAB);
    for (const [key, value] of [
      ['head b', { owner: 'x' }],
      ['head c', { owner: 'x', body: 1 }],
      ['head d', { owner: 'x', body: 1 }],
      ['body d 1', { id: 'd', plans: 'none' }],
      ['something', 4],
    ] as const) {
      store.values.set(key, value);
    }
    expect(await textsIn(store)).toEqual(['mine']);
    const before = new Map(store.values);
    before.delete('body c 1');
    await tidyShelf(store, { inUse: new Set(), now: 0 });
    expect(store.values).toEqual(before);
  });

  it('lets the oldest work go that is in files, never work that is not', async () => {
    const store = new StoreInMemory();
    for (let at = 0; at < 20; at++) {
      await writeWork(store, workMade(`saved-${at}`, 'in a file', { at, saved: true }), TAB);
      await writeWork(store, workMade(`left-${at}`, 'in no file', { at }), TAB);
    }
    await tidyShelf(store, { inUse: new Set(['saved-0']), now: 0 });
    const ids = (await listWorks(store)).map(({ id }) => id);
    expect(ids.filter((id) => id.startsWith('left'))).toHaveLength(20);
    expect(ids.filter((id) => id.startsWith('saved'))).toEqual([
      ...Array.from({ length: 12 }, (_, n) => `saved-${19 - n}`),
      'saved-0',
    ]);
  });
});

describe('work that was thrown away', () => {
  const shelf = async () => {
    const store = new StoreInMemory();
    await writeWork(store, workMade('a', 'thrown', { at: 1 }), TAB);
    await writeFiles(store, 'a', ['bytes']);
    await writeWork(store, workMade('b', 'other'), TAB);
    return store;
  };
  const idsThrown = async (store: KeepStore) => (await listThrown(store)).map(({ id }) => id);

  it('leaves the list, and comes back whole with its elevation when it is put back', async () => {
    const store = await shelf();
    const before = new Map(store.values);
    await throwAway(store, 'a', 5);
    expect(await textsIn(store)).toEqual(['other']);
    expect(await idsThrown(store)).toEqual(['a']);
    await putBack(store, 'a');
    expect(await idsThrown(store)).toEqual([]);
    expect(store.values).toEqual(before);
  });

  it('is in the list or can be put back, whenever the tab dies while it is thrown away or put back', async () => {
    const store = await shelf();
    expect(await afterEveryKill(store, (killed) => throwAway(killed, 'a', 5))).toEqual([
      ['thrown', 'other'],
      ['thrown', 'other'],
      ['other'],
    ]);
    await throwAway(store, 'a', 5);
    expect(await afterEveryKill(store, (killed) => putBack(killed, 'a'))).toEqual([
      ['other'],
      ['thrown', 'other'],
      ['thrown', 'other'],
    ]);
  });

  it('outlives the tidying for a day, and after that is gone with its elevation', async () => {
    const store = await shelf();
    await throwAway(store, 'a', 5);
    await tidyShelf(store, { inUse: new Set(), now: 5 + THROWN_FOR_MS - 1 });
    expect(await idsThrown(store)).toEqual(['a']);
    await tidyShelf(store, { inUse: new Set(), now: 5 + THROWN_FOR_MS });
    expect([...store.values.keys()].sort()).toEqual(['body b 1', 'gone a', 'head b']);
  });

  it('does not take the place of what a tab has kept anew under the same name', async () => {
    const store = await shelf();
    await throwAway(store, 'a', 5);
    await writeWork(store, workMade('a', 'anew', { at: 2 }), OTHER);
    expect(await idsThrown(store)).toEqual([]);
    await putBack(store, 'a');
    expect(await textsIn(store)).toEqual(['anew', 'other']);
  });

  it('stays as it is when nothing of that name is there', async () => {
    const store = await shelf();
    const before = new Map(store.values);
    await throwAway(store, 'none', 5);
    await putBack(store, 'none');
    expect(store.values).toEqual(before);
  });
});

describe('work that was handed to the browser from the list', () => {
  it('is known to be handed and not to be in a file, with the time it was changed', async () => {
    const store = new StoreInMemory();
    await writeWork(store, workMade('a', 'plan', { at: 7 }), TAB);
    await markHanded(store, 'a', new Set(['sheet']));
    const [work] = await listWorks(store);
    expect(work).toMatchObject({ at: 7, plans: [{ text: 'plan', saved: false, handed: true }] });
  });

  it('is never let go by itself: a download that the user refused leaves no file', async () => {
    const store = new StoreInMemory();
    for (let at = 0; at < 20; at++) {
      await writeWork(store, workMade(`handed-${at}`, 'plan', { at }), TAB);
      await markHanded(store, `handed-${at}`, new Set(['sheet']));
    }
    await tidyShelf(store, { inUse: new Set(), now: 0 });
    expect(await listWorks(store)).toHaveLength(20);
  });
});
