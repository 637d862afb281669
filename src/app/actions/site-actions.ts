import { effect } from '@preact/signals';
import { levelsOf, READING_DEVIATION, reduceBook, type StaffStand } from '../../evaluation/site/level-book.ts';
import { addMeasurements, setRecords, setYieldReadings } from '../../plan/edits/edit-water.ts';
import type { PointId, RunRecord } from '../../plan/model/plan.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Metres, Seconds } from '../../units/quantity.ts';
import { readings } from '../state/diagnosis-store.ts';
import {
  book,
  bookAsks,
  emptyBook,
  type Fillings,
  fillings,
  type OpenBook,
  siteAt,
  siteOpen,
} from '../state/site-store.ts';
import { announcement } from '../state/store.ts';
import { edit, sayRefusal } from './edit-actions.ts';

export function openSite(): void {
  siteOpen.value = true;
}

export function closeSite(): void {
  siteOpen.value = false;
}

export function showSiteQuestion(at: number): void {
  siteAt.value = at;
}

/** Takes the next reading or place of the level book. */
export function putStaff(at: PointId | null): void {
  const { stands } = book.value;
  book.value = { ...book.value, stands: [...stands, { at, fore: null, back: null }], ended: null };
}

export function readStaff(reading: Metres): readonly Problem[] {
  if (!Number.isFinite(reading)) return [];
  const asks = bookAsks.value;
  if (asks === 'back') changeLast({ back: reading });
  else if (asks === 'fore') changeLast({ fore: reading });
  return [];
}

function changeLast(change: Partial<StaffStand>): void {
  const { stands } = book.value;
  const last = stands.at(-1);
  if (last !== undefined) book.value = { ...book.value, stands: [...stands.slice(0, -1), { ...last, ...change }] };
}

export function goOn(ended: 'goes-on' | 'ends'): void {
  book.value = { ...book.value, ended };
}

export function levelledBy(by: OpenBook['by']): void {
  book.value = { ...book.value, by };
}

/** Takes back what was entered last: a reading, or a place. */
export function takeBackLast(): void {
  const { stands, ended } = book.value;
  const last = stands.at(-1);
  if (last === undefined) return;
  const before = stands.slice(0, -1);
  if (ended === 'ends') book.value = { ...book.value, ended: null };
  else if (last.back !== null) changeLast({ back: null });
  else if (last.fore !== null)
    book.value = { ...book.value, stands: [...before, { ...last, fore: null }], ended: null };
  else book.value = { ...book.value, stands: before, ended: null };
}

export function clearBook(): void {
  book.value = emptyBook;
}

/** Takes the legs of the book into the plan as levels, as one step. */
export function takeBook(): void {
  const { stands, by } = book.value;
  const reduced = reduceBook(stands, READING_DEVIATION[by]);
  if (!reduced.ok) {
    sayRefusal(reduced.problems);
    return;
  }
  const levels = levelsOf(reduced.value);
  const problems = edit((present) => addMeasurements(present, levels));
  sayRefusal(problems);
  if (problems.length > 0) return;
  clearBook();
  announcement.value = `Entered: ${levels.length} levels`;
}

/** Begins a filling, or ends the one that is under way. */
export function tapBucket(now: number): void {
  const { since, times } = fillings.value;
  if (since === null) fillings.value = { ...fillings.value, since: now };
  else {
    const time: Seconds = Math.round((now - since) / 100) / 10;
    fillings.value = { ...fillings.value, since: null, times: time > 0 ? [...times, time] : times };
  }
}

export function changeBucket(change: Partial<Pick<Fillings, 'volume' | 'plusMinus'>>): void {
  fillings.value = { ...fillings.value, ...change };
}

export function takeBackFilling(): void {
  const { since, times } = fillings.value;
  fillings.value = { ...fillings.value, since: null, times: since === null ? times.slice(0, -1) : times };
}

/** Takes the fillings into the plan as a reading of the source. */
export function takeFillings(): void {
  const { volume, plusMinus, times } = fillings.value;
  const reading = { kind: 'timed', volume, volumePlusMinus: plusMinus, times } as const;
  const problems = edit((present) => setYieldReadings(present, [...present.yieldReadings, reading]));
  sayRefusal(problems);
  if (problems.length > 0) return;
  fillings.value = { ...fillings.value, times: [], since: null };
  announcement.value = `Entered: ${times.length} fillings`;
}

/** Takes the beats that were counted into the records of the pump, as of today. */
export function takeBeats(today: string): void {
  const { beatsPerMinute } = readings.value;
  if (beatsPerMinute === null) return;
  const record: RunRecord = { ...NOTHING_READ, date: today, beatsPerMinute };
  sayRefusal(edit((present) => setRecords(present, [...(present.records ?? []), record])));
  announcement.value = 'Entered: beats of the pump';
}

const NOTHING_READ: Omit<RunRecord, 'date' | 'beatsPerMinute'> = {
  by: '',
  level: null,
  waste: null,
  delivery: null,
  deliveryReadAt: 'pump',
  gaugeRest: null,
  gaugeRunning: null,
  gaugeSwing: null,
  valveWeight: null,
  valveStroke: null,
  note: '',
};

const BOOK_KEY = 'rillwright-level-book';

/** Keeps the open book in the browser and takes up the one of before; where nothing can be kept the book lives with the page. */
export function keepBook(): void {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(BOOK_KEY) ?? 'null');
    if (isBook(kept)) book.value = kept;
  } catch {
    // What cannot be read was no book.
  }
  effect(() => {
    const text = JSON.stringify(book.value);
    try {
      localStorage.setItem(BOOK_KEY, text);
    } catch {
      // The book lives with the page.
    }
  });
}

function isBook(value: unknown): value is OpenBook {
  if (typeof value !== 'object' || value === null || !('stands' in value) || !Array.isArray(value.stands)) return false;
  const by = 'by' in value && (value.by === 'level' || value.by === 'hose');
  const ended = 'ended' in value && (value.ended === null || value.ended === 'goes-on' || value.ended === 'ends');
  const reading = (each: unknown) => each === null || (typeof each === 'number' && Number.isFinite(each));
  return (
    by &&
    ended &&
    value.stands.every(
      (stand: unknown) =>
        typeof stand === 'object' &&
        stand !== null &&
        'at' in stand &&
        'fore' in stand &&
        'back' in stand &&
        (stand.at === null || typeof stand.at === 'string') &&
        reading(stand.fore) &&
        reading(stand.back),
    )
  );
}
