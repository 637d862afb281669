import { expect, test } from 'vitest';
import { compareStores } from '../../../src/app/autosave/compare-stores.ts';
import { Keeper } from '../../../src/app/autosave/keeper.ts';
import { listWorks } from '../../../src/app/autosave/kept-plans.ts';
import { SecondCopy } from '../../../src/app/autosave/second-copy.ts';
import { ShelfInMemory } from './shelf-in-memory.ts';
import { StoreInMemory } from './store-in-memory.ts';
import { workMade } from './work-made.ts';

const KILLS = 400;
const STEPS = 6;

/** Numbers from 0 to below 1, the same every time: a linear congruence. Source: Park and Miller, CACM 31, 1988. */
function seeded(seed: number): () => number {
  // The first numbers of neighbouring seeds are neighbours; large ones are not.
  let state = (seed * 1_103_515_245 + 12_345) % 2_147_483_647;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

/** A plan of one size or the other, so that both ways of keeping it are walked. */
const textOf = (step: number, large: boolean) =>
  large
    ? Array.from({ length: 4000 }, (_, line) =>
        line === 99 ? `step ${step}` : `"vertex ${line}": [-40.1, 38.2],`,
      ).join('\n')
    : `step ${step}`;

const stepIn = (text: string | undefined) => Number(/step (\d+)/.exec(text ?? '')?.[1] ?? Number.NaN);

/** What accidents do to a store's texts: cut, lengthened, filled with zeros. */
const ACCIDENTS: readonly ((text: string, at: number) => string)[] = [
  (text, at) => text.slice(0, at),
  (text, at) => `${text}${text.slice(at)}`,
  (text, at) => text.slice(0, at) + '\0'.repeat(text.length - at),
];

/** What is done to one of the two stores while the machine is off; never to both. */
function damage(store: StoreInMemory, shelf: ShelfInMemory, chance: () => number): string {
  const tear = ACCIDENTS[Math.floor(chance() * ACCIDENTS.length)] ?? ((text: string) => text);
  const kind = Math.floor(chance() * 4);
  if (kind === 1) store.values.clear();
  if (kind === 2) {
    for (const [key, value] of store.values) {
      if (!key.startsWith('body ')) continue;
      const { plans, ...work } = value as ReturnType<typeof workMade>;
      const torn = plans.map((plan) => ({ ...plan, text: tear(plan.text, Math.floor(chance() * plan.text.length)) }));
      store.values.set(key, { ...work, plans: torn });
    }
  }
  if (kind === 3) {
    for (const [name, text] of shelf.texts) shelf.texts.set(name, tear(text, Math.floor(chance() * text.length)));
  }
  return ['nothing', 'database emptied', 'texts torn', 'second copies torn'][kind] ?? '';
}

test(`of ${KILLS} kills with a torn store none loses a plan, none brings back one that is older than the last that was kept`, async () => {
  const lost: string[] = [];
  const late: string[] = [];
  const untold: string[] = [];
  let kills = 0;
  for (let seed = 1; seed <= KILLS; seed++) {
    const chance = seeded(seed);
    const large = seed % 5 === 0;
    const store = new StoreInMemory(new Map(), Math.floor(chance() * STEPS * 3));
    const shelf = new ShelfInMemory();
    let kept = 0;
    // Every copy is written at once: the pauses of large plans are looked at elsewhere.
    let now = 0;
    const copy = new SecondCopy(shelf, { now: () => (now += 60_000), later: () => undefined });
    const keeper = new Keeper({
      store,
      copy,
      owner: 'a tab',
      tell: (state) => {
        if (state.kind === 'kept') kept = stepIn(state.work.plans[0]?.text);
      },
    });
    let killed = false;
    for (let step = 1; step <= STEPS && !killed; step++) {
      const before = kept;
      keeper.keep(workMade('a', textOf(step, large), { at: step }));
      await keeper.settled();
      killed = kept === before;
    }
    const died = new StoreInMemory(store.values);
    // A page that is killed writes no copy of what its database refused.
    const left = new ShelfInMemory(shelf.texts);
    const what = damage(died, left, chance);
    const told = await compareStores(died, left, new Set());
    const found = stepIn((await listWorks(died))[0]?.plans[0]?.text);
    if (kept > 0) kills++;
    const about = `kill ${seed}, ${what}: found ${found}, kept ${kept}`;
    if (kept > 0 && Number.isNaN(found)) lost.push(about);
    else if (kept > 0 && found < kept) late.push(about);
    if (kept > 0 && what === 'database emptied' && told.restored.length === 0) untold.push(about);
  }
  expect(kills).toBeGreaterThan(KILLS / 2);
  expect({ lost, late, untold }).toEqual({ lost: [], late: [], untold: [] });
});
