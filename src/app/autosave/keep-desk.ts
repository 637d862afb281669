import { followDesk } from '../actions/desk-actions.ts';
import { desk, isHanded, isUnsaved, newId, sheets } from '../state/alternatives.ts';
import { announcement, history } from '../state/store.ts';
import { deskFiles, followTerrainFiles, takeTerrainFiles } from './desk-files.ts';
import { IdbStore } from './idb-store.ts';
import { Keeper, type KeepingState } from './keeper.ts';
import { keeping, putAside } from './keeping-state.ts';
import { type KeptWork, neverHanded, sameWork } from './kept-work.ts';
import { opfsShelf } from './opfs-shelf.ts';
import { SecondCopy } from './second-copy.ts';
import { workOfDesk } from './work-of-alternatives.ts';

const PREFIX = 'rillwright work ';

/** How long a tab that is asked for its work has to let it go, ms; a sleeping tab does not answer. */
const PATIENCE_MS = 1500;

/** Says to every tab which work this tab has open. Without locks (a page that is not secure) nobody is told. */
class WorkLock {
  readonly #locks: LockManager | undefined;
  #id: string | null = null;
  #release: () => void = () => undefined;

  constructor(locks: LockManager | undefined) {
    this.#locks = locks;
  }

  /** Holds a work from now on instead of the one before; does nothing for the one that is held. */
  hold(id: string): Promise<void> {
    if (this.#id === id) return Promise.resolve();
    return this.#take(id, { ifAvailable: true });
  }

  /** Waits a while for a work that another tab holds, then takes it. */
  async takeOver(id: string): Promise<void> {
    try {
      await this.#take(id, { signal: AbortSignal.timeout(PATIENCE_MS) });
    } catch {
      await this.#take(id, { steal: true });
    }
  }

  release(): void {
    this.#id = null;
    this.#release();
    this.#release = () => undefined;
  }

  /** The works that tabs have open, this one's among them. */
  async held(): Promise<ReadonlySet<string>> {
    const { held = [] } = (await this.#locks?.query()) ?? {};
    return new Set(held.flatMap(({ name }) => (name?.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : [])));
  }

  #take(id: string, options: LockOptions): Promise<void> {
    this.release();
    this.#id = id;
    const locks = this.#locks;
    if (locks === undefined) return Promise.resolve();
    return new Promise((resolve, reject) => {
      const whileHeld = () =>
        new Promise<void>((release) => {
          this.#release = release;
          resolve();
        });
      locks.request(PREFIX + id, options, (lock) => (lock === null ? resolve() : whileHeld())).catch(reject);
    });
  }
}

/** Names this tab to the others. */
export const owner = newId();
export const store = new IdbStore('rillwright');
export const lock = new WorkLock(navigator.locks);
export const shelf = opfsShelf();
const copy = new SecondCopy(shelf, { now: Date.now, later: (run, ms) => setTimeout(run, ms) });
export const keeper = new Keeper({ store, copy, owner, tell: told });

/** Copies what still waits when the page goes out of sight, which may be the last that it hears. */
export function copyWhenLeft(): void {
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void copy.flush();
  });
}

/** Keeps what is on the desk: from the first change that is in no file, and then after every step. */
export function keepDesk(): void {
  // A drag is no step until it ends.
  if (history.value.draft !== null) return;
  followDesk();
  followTerrainFiles();
  const before = keeping.peek();
  const work = deskWork(before);
  const begun = 'work' in before && before.work.id === work.id;
  if ('work' in before && !begun) setAside(before);
  if (!begun && !sheets.value.some(isUnsaved)) return;
  if (before.kind === 'kept' && sameWork(before.work, work)) return;
  if (!begun) askToStay();
  if (before.kind !== 'elsewhere' || !begun) void lock.hold(work.id);
  keeper.keep(work, deskFiles().toKeep);
}

/** Whether everything on the desk can be found again in this browser, so that nothing is lost by letting it go. */
export async function isKept(): Promise<boolean> {
  await keeper.settled();
  const state = keeping.value;
  return state.kind === 'kept' && sameWork(state.work, deskWork(state));
}

function deskWork(before: KeepingState): KeptWork {
  const { id, shown } = desk.value;
  // A clock that is set back makes nothing older: of two states of a work the later one has the later time.
  const least = 'work' in before && before.work.id === id ? before.work.at + 1 : 0;
  const at = Math.max(Date.now(), least);
  return workOfDesk({ id, shown, sheets: sheets.value }, deskFiles().references, at);
}

/** Asks the browser, once, not to clear what is kept here when it wants room. It may say no without asking anybody. */
function askToStay(): void {
  if (askedToStay) return;
  askedToStay = true;
  navigator.storage?.persist?.().catch(() => undefined);
}

let askedToStay = false;

/** A write can end after another plan has come; then it is what was put aside that was kept. */
function told(state: KeepingState): void {
  if ('work' in state && state.work.id !== desk.peek().id) {
    sayAside(state);
    return;
  }
  if (keeping.peek().kind === 'failed' && state.kind === 'kept')
    announcement.value = 'Changes are kept in this browser again.';
  keeping.value = state;
}

/** Another plan is on the desk now; what was there is kept, and the page says so if it is in no file. */
export function setAside(state: KeepingState): void {
  lock.release();
  takeTerrainFiles();
  keeping.value = { kind: 'idle' };
  sayAside(state);
}

function sayAside(state: KeepingState): void {
  putAside.value = state.kind === 'kept' && neverHanded(state.work) ? state.work : null;
}

/** Goes on in this tab with a work that was taken over by another one: as a copy of its own. */
export function goOnAsCopy(): void {
  keeping.value = { kind: 'idle' };
  desk.value = { ...desk.value, id: newId() };
}

/** Keeps the page from being left while something is in no file, on whichever sheet. */
export function warnBeforeLeaving(event: BeforeUnloadEvent): void {
  const keptHere = keeping.peek().kind === 'kept';
  if (sheets.value.some((sheet) => isUnsaved(sheet) || (!keptHere && isHanded(sheet)))) event.preventDefault();
}
