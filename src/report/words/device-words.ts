import type { Position } from '../../geodesy/position.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { Metres } from '../../units/quantity.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { positionWords } from './position-words.ts';

/** Where the device is, a line each: the place, how well it is known, and the height of the elevation file there. */
export function deviceLines({
  position,
  accuracy,
  ground,
  units,
}: {
  readonly position: Position;
  readonly accuracy: Metres;
  readonly ground: Metres | null;
  readonly units: UnitSystem;
}): readonly string[] {
  const height = ground === null ? [] : [`ground ${writeQuantity(ground, 'height', units)}, from the elevation file`];
  return [positionWords(position), `within ${writeQuantity(accuracy, 'length', units)}, the device says`, ...height];
}

/** Why there is no place to show, and what to do. */
export const DEVICE_REFUSALS = {
  denied: 'This page may not read the position. Allow it in the browser’s settings for this page, then try again.',
  unavailable: 'The device found no position. Go where it sees the sky, or switch its location on, then try again.',
  late: 'The device took longer than half a minute to find its position. Try again where it sees the sky.',
  none: 'This browser gives no position to this page. It does so only on a secure address (https) or this machine.',
} as const;
