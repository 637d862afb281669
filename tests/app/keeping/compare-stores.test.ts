import { describe, expect, it, vi } from 'vitest';
import { compareStores, worksOnShelf } from '../../../src/app/autosave/compare-stores.ts';
import { Keeper, type KeepingState, NO_ANSWER } from '../../../src/app/autosave/keeper.ts';
import { dropWork, listWorks, writeWork } from '../../../src/app/autosave/kept-plans.ts';
import type { KeepAccess, KeepStore } from '../../../src/app/autosave/kept-work.ts';
import { SecondCopy } from '../../../src/app/autosave/second-copy.ts';
import { throwAway } from '../../../src/app/autosave/trash.ts';
import { ShelfInMemory } from './shelf-in-memory.ts';
import { StoreInMemory } from './store-in-memory.ts';
import { workMade } from './work-made.ts';

const NONE: ReadonlySet<string> = new Set();
const clock = { now: () => 0, later: () => undefined };

async function bothWith(...works: Parameters<typeof workMade>[]) {
  const [store, shelf] = [new StoreInMemory(), new ShelfInMemory()];
  const copy = new SecondCopy(shelf, clock);
  for (const [id, text, rest] of works) {
    await writeWork(store, workMade(id, text, rest), 'a tab');
    await copy.keep(workMade(id, text, rest));
  }
  return { store, shelf };
}

const textsIn = async (store: KeepStore) => (await listWorks(store)).map(({ plans }) => plans[0]?.text).sort();

describe('the two stores, when the page is opened', () => {
  it('say nothing where they hold the same', async () => {
    const { store, shelf } = await bothWith(['a', 'one', { at: 1 }], ['b', 'two', { at: 2 }]);
    const before = new Map(store.values);
    expect(await compareStores(store, shelf, NONE)).toEqual({ restored: [], lost: 0, later: 0 });
    expect(store.values).toEqual(before);
  });

  it('give back every plan of a database that was emptied, and say which', async () => {
    const { shelf } = await bothWith(['a', 'one', { at: 1 }], ['b', 'two', { at: 2 }]);
    const emptied = new StoreInMemory();
    const { restored, lost } = await compareStores(emptied, shelf, NONE);
    expect([restored.map(({ id }) => id).sort(), lost]).toEqual([['a', 'b'], 0]);
    expect(await textsIn(emptied)).toEqual(['one', 'two']);
    expect((await compareStores(emptied, shelf, NONE)).restored).toEqual([]);
  });

  it('give back a plan whose text was torn, and count one that neither has any more', async () => {
    const { store, shelf } = await bothWith(['a', 'one', { at: 1 }], ['b', 'two', { at: 2 }]);
    for (const id of ['a', 'b']) {
      const body = store.values.get(`body ${id} 1`) as { plans: { text: string }[] };
      for (const plan of body.plans) plan.text = plan.text.replace(/.$/, '\0');
    }
    shelf.texts.set('b', shelf.texts.get('b')?.slice(0, -3) ?? '');
    const { restored, lost } = await compareStores(store, shelf, NONE);
    expect([restored.map(({ id }) => id), lost]).toEqual([['a'], 1]);
    expect(await textsIn(store)).toEqual(['one']);
  });

  it('take the newer of two states, and leave alone what a tab has open', async () => {
    const { store, shelf } = await bothWith(['a', 'old', { at: 1 }], ['b', 'old too', { at: 1 }]);
    const copy = new SecondCopy(shelf, clock);
    await copy.keep(workMade('a', 'new', { at: 2 }));
    await copy.keep(workMade('b', 'new too', { at: 2 }));
    const { restored } = await compareStores(store, shelf, new Set(['b']));
    expect(restored.map(({ id }) => id)).toEqual(['a']);
    expect(await textsIn(store)).toEqual(['new', 'old too']);
  });

  it('copy again what has no copy', async () => {
    const { store, shelf } = await bothWith(['a', 'one', { at: 1 }]);
    shelf.texts.clear();
    await compareStores(store, shelf, NONE);
    expect((await worksOnShelf(shelf)).map(({ id }) => id)).toEqual(['a']);
  });

  it('bring nothing back that the user deleted, wherever the deleting was cut off', async () => {
    const { store, shelf } = await bothWith(['a', 'thrown', { at: 1 }], ['b', 'gone', { at: 2 }]);
    await throwAway(store, 'a', 5);
    await dropWork(store, 'b', 5);
    expect(await compareStores(store, shelf, NONE)).toEqual({ restored: [], lost: 0, later: 0 });
    expect(await textsIn(store)).toEqual([]);
    expect(shelf.texts.has('b')).toBe(false);
  });

  it('leave what a later version wrote as it is, and count it', async () => {
    const { store, shelf } = await bothWith(['a', 'mine', { at: 1 }]);
    store.values.set('head z', { owner: 'x', body: 1 });
    store.values.set('body z 1', { version: 2, pages: ['a plan of next year'] });
    const before = new Map(store.values);
    expect(await compareStores(store, shelf, NONE)).toEqual({ restored: [], lost: 0, later: 1 });
    expect(store.values).toEqual(before);
  });
});

/** A store that never answers until it is told to. */
class HangingStore extends StoreInMemory {
  answer: () => void = () => undefined;
  readonly #open = new Promise<void>((resolve) => {
    this.answer = resolve;
  });

  override async transact<T>(run: (access: KeepAccess) => Promise<T>): Promise<T> {
    await this.#open;
    return super.transact(run);
  }
}

describe('a store that hangs', () => {
  it('is told within five seconds, keeps a second copy, lets everything else go on, and is well again when it answers', async () => {
    vi.useFakeTimers();
    try {
      const [store, shelf] = [new HangingStore(), new ShelfInMemory()];
      const told: KeepingState[] = [];
      const copy = new SecondCopy(shelf, clock);
      const keeper = new Keeper({ store, copy, owner: 'this tab', tell: (state) => told.push(state) });
      keeper.keep(workMade('a', 'one', { at: 1 }));
      let settled = false;
      void keeper.settled().then(() => {
        settled = true;
      });
      await vi.advanceTimersByTimeAsync(2000);
      expect([settled, told]).toEqual([true, []]);
      await vi.advanceTimersByTimeAsync(3000);
      expect(told).toEqual([{ kind: 'failed', reason: NO_ANSWER }]);
      keeper.keep(workMade('a', 'two', { at: 2 }));
      await vi.advanceTimersByTimeAsync(0);
      expect((await worksOnShelf(shelf)).map(({ plans }) => plans[0]?.text)).toEqual(['two']);
      store.answer();
      await vi.advanceTimersByTimeAsync(10);
      expect(told.at(-1)).toEqual({ kind: 'kept', work: workMade('a', 'two', { at: 2 }) });
      expect(await textsIn(store)).toEqual(['two']);
    } finally {
      vi.useRealTimers();
    }
  });
});

describe('a store without room', () => {
  it('is tried again by itself, and says when it is well again', async () => {
    vi.useFakeTimers();
    try {
      let full = true;
      const store = new StoreInMemory();
      const refusing: KeepStore = {
        transact: (run) => {
          if (full) throw new DOMException('full', 'QuotaExceededError');
          return store.transact(run);
        },
      };
      const told: KeepingState[] = [];
      const keeper = new Keeper({ store: refusing, copy: null, owner: 'this tab', tell: (state) => told.push(state) });
      keeper.keep(workMade('a', 'one'));
      await vi.advanceTimersByTimeAsync(3000);
      expect(told.at(-1)?.kind).toBe('failed');
      full = false;
      await vi.advanceTimersByTimeAsync(60_000);
      expect(told.at(-1)).toEqual({ kind: 'kept', work: workMade('a', 'one') });
    } finally {
      vi.useRealTimers();
    }
  });
});
