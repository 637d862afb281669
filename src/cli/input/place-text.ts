import type { Position } from '../../geodesy/position.ts';
import { InputError } from './io.ts';

/** A place typed as longitude and latitude in degrees. */
export function placeFrom(flag: string, text: string): Position {
  const parts = text.split(',');
  const [lon = Number.NaN, lat = Number.NaN] = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (parts.length === 2 && Math.abs(lon) <= 180 && Math.abs(lat) <= 90) return { lon, lat };
  throw new InputError(`${flag}: found ${text}, expected a place as longitude,latitude in degrees`);
}
