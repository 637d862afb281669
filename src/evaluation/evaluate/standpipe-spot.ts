import type { Position } from '../../geodesy/position.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import { siteOf } from '../site/site.ts';
import type { Ground } from './evaluate.ts';

/** A place on the drawn way at which a standpipe can be set. */
export interface StandpipeSpot {
  readonly on: 'supply' | 'drive';
  /** Index of the vertex before it along that route. */
  readonly vertex: number;
  readonly position: Position;
}

/**
 * The place on the drawn way from which a drive pipe of a length reaches the pump, the length taken along the ground.
 *
 * Null while supply line and drive pipe are not both drawn on ground, and for a length beyond either end of the way.
 */
export function standpipeSpot(plan: Plan, ground: Ground, driveLength: Metres): StandpipeSpot | null {
  const site = siteOf(plan, ground);
  const { supply, drive } = site.arrangement;
  const drivePart = drive && site.profiles.get(drive.id);
  const supplyPart = supply && site.profiles.get(supply.id);
  if (!drivePart || !supplyPart || driveLength <= 0) return null;
  const driveSteps = stepsFromEnd(drivePart);
  const reached = driveSteps.at(-1) ?? 0;
  if (driveLength <= reached) return spotOn('drive', drivePart, driveSteps, driveLength);
  const supplySteps = stepsFromEnd(supplyPart);
  const left = driveLength - reached;
  return left < (supplySteps.at(-1) ?? 0) ? spotOn('supply', supplyPart, supplySteps, left) : null;
}

/** Length along the ground from the end of a line to each sample, counted from the end: entry 0 is the end itself. */
function stepsFromEnd({ line, height }: LineProfile): readonly Metres[] {
  const lengths: Metres[] = [];
  let length = 0;
  for (let i = height.length - 1; i >= 0; i--) {
    const next = i + 1;
    if (next < height.length) {
      const level = valueAt(line.at, next) - valueAt(line.at, i);
      const rise = line.known[i] && line.known[next] ? valueAt(height, next) - valueAt(height, i) : 0;
      length += Math.hypot(level, rise);
    }
    lengths.push(length);
  }
  return lengths;
}

function spotOn(
  on: StandpipeSpot['on'],
  { line }: LineProfile,
  steps: readonly Metres[],
  length: Metres,
): StandpipeSpot | null {
  const step = steps.findIndex((reached) => reached >= length);
  const after = steps.length - step;
  const before = after - 1;
  const [shorter, longer] = [valueAt(steps, step - 1), valueAt(steps, step)];
  const share = longer > shorter ? (longer - length) / (longer - shorter) : 0;
  const [lon, lat] = [line.lon[before], line.lat[before]];
  if (step < 0 || lon === undefined || lat === undefined) return null;
  const position = {
    lon: lon + ((line.lon[after] ?? lon) - lon) * share,
    lat: lat + ((line.lat[after] ?? lat) - lat) * share,
  };
  const vertex = line.vertices.findLastIndex((sample) => sample <= before);
  return { on, vertex: Math.max(0, vertex), position };
}
