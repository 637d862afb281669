import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { ProfileReading } from './profile-reading.ts';

/** What the profile shows at one place, in one line. */
export function readingWords(reading: ProfileReading, units: UnitSystem): string {
  const height = (value: number) => writeQuantity(value, 'height', units);
  const parts = [
    `${reading.routeName}, ${writeQuantity(reading.alongRoute, 'length', units)} along`,
    reading.ground === null
      ? 'no height here'
      : `ground ${height(reading.ground)}${reading.spread === null ? '' : ` ±${height(reading.spread)}`}`,
    ...(reading.running === null ? [] : [`water while running ${height(reading.running)}`]),
    ...(reading.running === null || reading.ground === null
      ? []
      : [clearance(reading.running - reading.ground, height)]),
    ...(reading.still === null ? [] : [`at rest ${height(reading.still)}`]),
  ];
  return parts.join(' · ');
}

function clearance(above: number, height: (value: number) => string): string {
  return above < 0 ? `${height(-above)} below the ground` : `${height(above)} above the ground`;
}
