import type { Position } from '../../geodesy/position.ts';
import type { Problem } from '../../units/outcome.ts';
import { describe } from '../model/path.ts';
import { shownText } from './clean-text.ts';

/** A position as a file gives it, before it is known to be one. */
export interface GivenPlace {
  readonly lon: unknown;
  readonly lat: unknown;
  readonly height?: unknown;
}

/** A position with the height beside it, if any. */
export interface ReadPlace {
  readonly position: Position;
  readonly height: number | null;
}

const MOST = { lon: 180, lat: 90 } as const;
const LONGEST_NUMBER = 40;
const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?$/;

/** Degrees and metres of a position; a height that is no number is left out, a place that is none is a problem. */
export function readPlace(given: GivenPlace, path: string): ReadPlace | Problem {
  const lon = degrees(given.lon, 'lon', path);
  if (typeof lon !== 'number') return lon;
  const lat = degrees(given.lat, 'lat', path);
  if (typeof lat !== 'number') return lat;
  return { position: { lon, lat }, height: numberOf(given.height) };
}

function degrees(value: unknown, axis: 'lon' | 'lat', path: string): number | Problem {
  const number = numberOf(value);
  if (number !== null && Math.abs(number) <= MOST[axis]) return number;
  const name = axis === 'lon' ? 'longitude' : 'latitude';
  const found = typeof value === 'string' ? shownText(value) : describe(value);
  const expected = `${name} in degrees from ${-MOST[axis]} to ${MOST[axis]}`;
  return { code: number === null ? 'not-a-number' : 'out-of-range', path, found, expected };
}

/** A finite number, given as one or written as one with a decimal point; null for anything else. */
export function numberOf(value: unknown): number | null {
  if (typeof value === 'string') {
    const text = value.trim();
    return text.length <= LONGEST_NUMBER && NUMBER.test(text) ? numberOf(Number(text)) : null;
  }
  return typeof value === 'number' && Number.isFinite(value) ? value + 0 : null;
}
