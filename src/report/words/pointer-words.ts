import type { Evaluation, PointResult } from '../../evaluation/result/evaluation.ts';
import type { Position } from '../../geodesy/position.ts';
import type { PointId, PointRole } from '../../plan/model/plan.ts';
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

/** What lies under the pointer, a line each. */
export function readoutOf({
  position,
  ground,
  units,
}: {
  readonly position: Position;
  readonly ground: number | null;
  readonly units: UnitSystem;
}): readonly string[] {
  const height = ground === null ? [] : [`ground ${writeQuantity(ground, 'height', units)}`];
  return [positionWords(position), ...height];
}

/** The point from which a new one is judged while it is placed. */
const JUDGED_FROM: Readonly<Record<PointRole, PointRole | null>> = {
  source: null,
  standpipe: 'source',
  pump: 'source',
  tank: 'pump',
  trough: 'source',
};

const NAMES: Readonly<Record<PointRole, string>> = {
  source: 'the source',
  standpipe: 'the standpipe',
  pump: 'the pump',
  tank: 'the tank',
  trough: 'the trough',
};

/** How far the ground under the pointer lies above or below the point that counts for what is being placed. */
export function pointerNoteOf({
  placing,
  ground,
  points,
  units,
}: {
  readonly placing: PointRole | null;
  readonly ground: number | null;
  readonly points: readonly PointResult[];
  readonly units: UnitSystem;
}): string | null {
  if (placing === null || ground === null) return null;
  const from = JUDGED_FROM[placing];
  const level = points.find((point) => point.role === from)?.level ?? null;
  if (from === null || level === null) return null;
  const way = ground < level ? 'below' : 'above';
  return `${writeQuantity(Math.abs(ground - level), 'height', units)} ${way} ${NAMES[from]}`;
}

/** What a point that is being dragged does to the plan, in one line: the fall for what sets it, the delivery for a tank. */
export function dragNoteOf(id: PointId, evaluation: Evaluation, units: UnitSystem): string | null {
  const tank = evaluation.tanks.find((each) => each.id === id);
  if (tank !== undefined) {
    const lift = `lift ${writeQuantity(tank.line?.governingLift.likely ?? tank.lift.likely, 'height', units)}`;
    const perDay = tank.line?.deliveryPerDay ?? null;
    return perDay === null ? lift : `${lift} · ${writeQuantity(perDay.likely, 'daily-volume', units)}`;
  }
  const role = evaluation.points.find((point) => point.id === id)?.role;
  if (role === 'trough' || evaluation.pump === null) return null;
  return `fall ${writeQuantity(evaluation.pump.fall.likely, 'height', units)}`;
}
