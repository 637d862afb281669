import type { Position } from '../../geodesy/position.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { readNumber } from '../../units/read-number.ts';
import { valueAt } from '../../units/value-at.ts';
import { writeQuantity } from '../../units/write-quantity.ts';

/** Seven decimals of a degree are about a centimetre on the ground. */
const DECIMALS = 7;
const MOST = { lon: 180, lat: 90 } as const;

export type DegreesReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly sentence: string };

export function writeDegrees(degrees: number): string {
  return String(Number(degrees.toFixed(DECIMALS)));
}

/** A position in one line, latitude and longitude with their letters, to about a metre. */
export function positionWords({ lon, lat }: Position): string {
  return `${Math.abs(lat).toFixed(5)}° ${lat < 0 ? 'S' : 'N'}, ${Math.abs(lon).toFixed(5)}° ${lon < 0 ? 'W' : 'E'}`;
}

/** Reads decimal degrees of one axis. */
export function readDegrees(text: string, axis: 'lon' | 'lat'): DegreesReading {
  const plain = text.trim().replace('−', '-').replace(/\s*°$/, '');
  const number = readNumber(plain);
  if (!number.ok) return { ok: false, sentence: `“${text}” is no number of degrees. Type one such as −31.2041.` };
  if (Math.abs(number.value) > MOST[axis]) {
    return { ok: false, sentence: `Found ${plain}°; expected ${-MOST[axis]} to ${MOST[axis]}.` };
  }
  return { ok: true, value: number.value };
}

export type PositionReading =
  | { readonly ok: true; readonly value: Position }
  | { readonly ok: false; readonly sentence: string };

/** Reads a longitude and a latitude from one line, in that order, with a comma or a blank between. */
export function readPosition(text: string): PositionReading {
  const parts = text.trim().split(/\s*[,;]\s+|\s*;\s*|\s+|,/);
  const [first, second] = parts;
  if (first === undefined || second === undefined || parts.length !== 2) {
    return { ok: false, sentence: `“${text}” is no position. Type longitude and latitude, such as −31.2041 37.9013.` };
  }
  const lon = readDegrees(first, 'lon');
  if (!lon.ok) return lon;
  const lat = readDegrees(second, 'lat');
  return lat.ok ? { ok: true, value: { lon: lon.value, lat: lat.value } } : lat;
}

/** Where a drawn vertex stands along its line, and the ground under it; null while the line's ground is not known. */
export function bendWords(ground: GroundLine | undefined, vertex: number, units: UnitSystem): string | null {
  const sample = ground?.vertices[vertex];
  if (ground === undefined || sample === undefined) return null;
  const along = `${writeQuantity(valueAt(ground.at, sample), 'length', units)} along`;
  const height = ground.known[sample] === 1 ? writeQuantity(valueAt(ground.ground, sample), 'height', units) : null;
  return height === null ? `${along}, no height here` : `${along}, ground ${height}`;
}
