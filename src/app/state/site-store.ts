import { computed, signal } from '@preact/signals';
import type { StaffStand } from '../../evaluation/site/level-book.ts';
import type { CubicMetres, Seconds } from '../../units/quantity.ts';

/** What is asked on a screen on site. */
export type SiteQuestion = 'bucket' | 'level' | 'beats' | 'place' | 'other';

export const siteOpen = signal(false);
/** Which of the things to measure is on the screen. */
export const siteAt = signal(0);

/** A level book that is being filled in; it outlives the page. */
export interface OpenBook {
  readonly stands: readonly StaffStand[];
  readonly by: 'level' | 'hose';
  /** After a fore reading: whether the level goes on from there, or the book ends there; null while nobody has said. */
  readonly ended: 'goes-on' | 'ends' | null;
}

export const emptyBook: OpenBook = { stands: [], by: 'level', ended: null };
export const book = signal<OpenBook>(emptyBook);

/** What the book wants next. */
export type BookAsks = 'first-place' | 'back' | 'next-place' | 'fore' | 'go-on' | 'nothing';

export const bookAsks = computed<BookAsks>(() => {
  const { stands, ended } = book.value;
  const last = stands.at(-1);
  if (last === undefined) return 'first-place';
  if (ended === 'ends') return 'nothing';
  if (stands.length > 1 && last.fore === null) return 'fore';
  if (last.back !== null) return 'next-place';
  // A turning point is only there to go on from.
  return stands.length === 1 || last.at === null || ended === 'goes-on' ? 'back' : 'go-on';
});

/** Fillings of a container that are being timed. */
export interface Fillings {
  readonly volume: CubicMetres;
  readonly plusMinus: CubicMetres;
  readonly times: readonly Seconds[];
  /** When the filling began that is under way, ms of the page; null for none. */
  readonly since: number | null;
}

export const emptyFillings: Fillings = { volume: 0.01, plusMinus: 0.0002, times: [], since: null };
export const fillings = signal<Fillings>(emptyFillings);
