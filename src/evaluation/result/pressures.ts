import { GRAVITY } from '../../hydraulics/gravity.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { Celsius, Metres, Pascals } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import type { GradeLine } from './evaluation.ts';

/** Pressure of a column of the plan's water: p = ρ g h. */
export function pressureOf(head: Metres, temperature: Celsius): Pascals {
  return waterAt(temperature).density * GRAVITY * head;
}

/**
 * Walks a route from its start and tells the height of a grade line above the ground at every known sample, m. Samples and
 * corners are both in order of distance, so one walk sees all.
 */
function walkHeads(
  { line, height }: LineProfile,
  { at: corners, head: levels }: GradeLine,
  tell: (sample: number, head: Metres) => void,
): void {
  let corner = 0;
  let [d0, h0, d1, h1] = [0, 0, Number.NEGATIVE_INFINITY, levels[0] ?? 0];
  for (let i = 0; i < height.length; i++) {
    const at = valueAt(line.at, i);
    while (at > d1 && corner < corners.length - 1) {
      [d0, h0] = [valueAt(corners, corner), valueAt(levels, corner)];
      corner++;
      [d1, h1] = [valueAt(corners, corner), valueAt(levels, corner)];
    }
    if (line.known[i]) tell(i, (d1 > d0 ? h0 + ((h1 - h0) * (at - d0)) / (d1 - d0) : h1) - valueAt(height, i));
  }
}

/** Height of a grade line above the ground at every sample of a route, m; 0 where the ground is unknown. */
export function headsAlong(profile: LineProfile, grade: GradeLine): Float64Array {
  const heads = new Float64Array(profile.height.length);
  walkHeads(profile, grade, (i, head) => {
    heads[i] = head;
  });
  return heads;
}

/** Greatest height of a grade line above the ground of a route, m; 0 where the ground is above it everywhere. */
export function greatestHead(profile: LineProfile, grade: GradeLine): Metres {
  const [first = 0, last = 0] = [grade.head[0], grade.head.at(-1)];
  // A level line stands highest above the lowest ground: no walk.
  if (grade.head.length === 2 && first === last) return Math.max(0, first - (profile.lowest ?? first));
  let most = 0;
  walkHeads(profile, grade, (_, head) => {
    if (head > most) most = head;
  });
  return most;
}

/** A grade line that stays level: water at rest. */
export function levelGrade(level: Metres, length: Metres): GradeLine {
  return { at: [0, length], head: [level, level] };
}
