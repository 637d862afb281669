import type { Position } from '../../geodesy/position.ts';
import type { Problem } from '../../units/outcome.ts';
import type { PointRole, RouteRole } from '../model/plan.ts';
import { cleanName, cleanNote, lostMarks, shownText } from './clean-text.ts';
import { type FoundItem, type HeightsAside, importFault, importLimits } from './import-preview.ts';
import { type GivenPlace, readPlace } from './read-place.ts';

/** Words of the trade that speak of a role; common practice, no source. */
const POINT_WORDS: Readonly<Record<PointRole, RegExp>> = {
  source: /\b(?:sources?|springs?|spring ?box|creek|stream|intake|seep)\b/i,
  standpipe: /\b(?:stand ?pipe|standing pipe)\b/i,
  pump: /\b(?:pumps?|rams?|hydram)\b/i,
  tank: /\b(?:tanks?|reservoirs?|cisterns?)\b/i,
  trough: /\b(?:troughs?|drinkers?|waterers?)\b/i,
};

const ROUTE_WORDS: Readonly<Record<RouteRole, RegExp>> = {
  supply: /\b(?:supply|feed)\b/i,
  drive: /\bdrive\b/i,
  delivery: /\b(?:delivery|deliver|rising main)\b/i,
  gravity: /\bgravity\b/i,
};

/** Longer than any type or name that a person would read. */
const LONGEST = 200;

/** The role a point's type states, else the one that its name speaks of; null for none or several. */
function suggestPointRole(type: string, name: string): PointRole | null {
  return onlyRole(POINT_WORDS, type) ?? onlyRole(POINT_WORDS, name);
}

function suggestRouteRole(type: string, name: string): RouteRole | null {
  return onlyRole(ROUTE_WORDS, type) ?? onlyRole(ROUTE_WORDS, name);
}

function onlyRole<Role extends string>(words: Readonly<Record<Role, RegExp>>, text: string): Role | null {
  const spoken = Object.keys(words).filter((role): role is Role => {
    return Object.entries<RegExp>(words).some(([key, word]) => key === role && word.test(text.slice(0, LONGEST)));
  });
  return spoken.length === 1 ? (spoken[0] ?? null) : null;
}

/** A point or a line as a file's reader found it. */
export interface GivenItem {
  readonly name: string;
  readonly note: string;
  /** What the file calls its kind; empty when it says nothing. */
  readonly type: string;
  readonly path: string;
  readonly places: readonly GivenPlace[];
}

/** More problems than this of one item, or of one file, are not listed. */
const MOST_OF_ITEM = 5;
const MOST_OF_FILE = 50;

/** Gathers what a file holds, cleaned and within the limits. */
export class ItemBook {
  readonly items: FoundItem[] = [];
  readonly problems: Problem[] = [];
  #positions = 0;

  point(given: GivenItem): void {
    const { positions, ...rest } = this.#read(given);
    this.items.push({ kind: 'point', positions, ...rest, suggested: suggestPointRole(given.type, given.name) });
  }

  line(given: GivenItem): void {
    const { positions, problems, ...rest } = this.#read(given);
    const short = problems.length === 0 && positions.length < 2;
    const tooShort = { code: 'too-short', path: given.path, found: countOf(positions), expected: 'two places or more' };
    this.items.push({
      kind: 'line',
      positions,
      ...rest,
      problems: short ? [tooShort] : problems,
      suggested: suggestRouteRole(given.type, given.name),
    });
  }

  /** Says of a part of the file that it cannot be taken. */
  leaveOut(path: string, found: string, expected = 'a point or a line'): void {
    if (this.problems.length < MOST_OF_FILE) this.problems.push({ code: 'not-imported', path, found, expected });
  }

  #read({ name, note, path, places }: GivenItem) {
    this.#count(places.length, path);
    const positions: Position[] = [];
    const heights: number[] = [];
    const problems: Problem[] = [];
    for (const given of places) {
      const place = readPlace(given, path);
      if ('code' in place) {
        if (problems.push(place) === MOST_OF_ITEM) break;
        continue;
      }
      if (!samePlace(positions.at(-1), place.position)) positions.push(place.position);
      if (place.height !== null) heights.push(place.height);
    }
    return {
      key: `item-${this.items.length + 1}`,
      name: cleanName(name),
      note: cleanNote(note),
      path,
      positions,
      heights: asideOf(heights),
      problems,
      remarks: lostMarks(name) ? [nameCleaned(name, path)] : [],
    };
  }

  #count(places: number, path: string): void {
    const { positions, items } = importLimits;
    this.#positions += places;
    if (this.#positions > positions) {
      importFault('too-many', path, `more than ${positions} positions`, `at most ${positions} in a file`);
    }
    if (this.items.length >= items) {
      importFault('too-many', path, `more than ${items} points and lines`, `at most ${items} in a file`);
    }
  }
}

function samePlace(a: Position | undefined, b: Position): boolean {
  return a !== undefined && a.lon === b.lon && a.lat === b.lat;
}

function countOf(positions: readonly Position[]): string {
  return positions.length === 0 ? 'no place' : 'one place';
}

function asideOf(heights: readonly number[]): HeightsAside | null {
  const [first] = heights;
  if (first === undefined) return null;
  const lowest = heights.reduce((least, height) => Math.min(least, height), first);
  const highest = heights.reduce((most, height) => Math.max(most, height), first);
  return { count: heights.length, lowest, highest };
}

function nameCleaned(name: string, path: string): Problem {
  const expected = 'a name of one line without control or direction marks, 200 characters at most; it was cut to that';
  return { code: 'name-cleaned', path, found: shownText(name), expected };
}
