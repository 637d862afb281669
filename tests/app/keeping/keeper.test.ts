import { describe, expect, it } from 'vitest';
import { Keeper, type KeepingState } from '../../../src/app/autosave/keeper.ts';
import { listWorks, readFiles, takeWork } from '../../../src/app/autosave/kept-plans.ts';
import type { KeepAccess, KeepStore } from '../../../src/app/autosave/kept-work.ts';
import { StoreInMemory } from './store-in-memory.ts';
import { workMade } from './work-made.ts';

function keeperOn(store: KeepStore) {
  const told: KeepingState[] = [];
  const keeper = new Keeper({ store, copy: null, owner: 'this tab', tell: (state) => told.push(state) });
  return { keeper, told, last: () => told.at(-1) };
}

/** A store that is full: what is too large for it is refused, as browsers do. */
class FullStore extends StoreInMemory {
  override transact<T>(run: (access: KeepAccess) => Promise<T>): Promise<T> {
    return super.transact((access) =>
      run({
        ...access,
        put: async (key, value) => {
          if (JSON.stringify(value).includes('large')) throw new DOMException('full', 'QuotaExceededError');
          await access.put(key, value);
        },
      }),
    );
  }
}

describe('keeping what is worked on', () => {
  it('ends with the newest state, however fast the steps come', async () => {
    const store = new StoreInMemory();
    const { keeper, last } = keeperOn(store);
    for (let step = 1; step <= 50; step++) keeper.keep(workMade('a', `step ${step}`));
    await keeper.settled();
    expect((await listWorks(store)).map(({ plans }) => plans[0]?.text)).toEqual(['step 50']);
    expect(last()).toEqual({ kind: 'kept', work: workMade('a', 'step 50') });
    expect(store.writes).toBeLessThan(10);
  });

  it('says that there is no room, goes on, and keeps the next state that finds room', async () => {
    const store = new FullStore();
    const { keeper, last } = keeperOn(store);
    keeper.keep(workMade('a', 'large'));
    await keeper.settled();
    expect(last()).toEqual({ kind: 'failed', reason: 'there is no room left' });
    keeper.keep(workMade('a', 'small'));
    await keeper.settled();
    expect(last()?.kind).toBe('kept');
    expect((await listWorks(store)).map(({ plans }) => plans[0]?.text)).toEqual(['small']);
  });

  it('keeps a plan whose elevation finds no room, with the names of its files', async () => {
    const store = new FullStore();
    const { keeper, last } = keeperOn(store);
    keeper.keep(workMade('a', 'plan'), { whole: 'large bytes', bare: 'names' });
    await keeper.settled();
    expect(last()?.kind).toBe('kept');
    expect(await readFiles(store, 'a')).toBe('names');
  });

  it('writes the elevation once and not with every step', async () => {
    const store = new StoreInMemory();
    const { keeper } = keeperOn(store);
    const files = { whole: 'bytes', bare: 'names' };
    keeper.keep(workMade('a', 'one'), files);
    await keeper.settled();
    const { writes } = store;
    keeper.keep(workMade('a', 'two'), files);
    await keeper.settled();
    expect(store.writes - writes).toBe(3);
  });

  it('stops for good when another tab has taken the work over, and says so', async () => {
    const store = new StoreInMemory();
    const { keeper, last, told } = keeperOn(store);
    keeper.keep(workMade('a', 'one'));
    await keeper.settled();
    await takeWork(store, 'a', 'another tab');
    keeper.keep(workMade('a', 'two'));
    await keeper.settled();
    expect(last()).toEqual({ kind: 'elsewhere', work: workMade('a', 'two') });
    const { writes } = store;
    keeper.keep(workMade('a', 'three'));
    await keeper.settled();
    expect(store.writes).toBe(writes);
    expect(told.filter(({ kind }) => kind === 'kept')).toHaveLength(1);
    expect((await listWorks(store)).map(({ plans }) => plans[0]?.text)).toEqual(['one']);
  });
});
