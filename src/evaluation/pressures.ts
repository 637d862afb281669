import { GRAVITY } from '../hydraulics/gravity.ts';
import { waterAt } from '../hydraulics/water.ts';
import type { Celsius, Metres, Pascals } from '../units/quantity.ts';
import type { GradeLine } from './evaluation.ts';
import type { LineProfile } from './line-profile.ts';

/** Pressure of a column of the plan's water: p = ρ g h. */
export function pressureOf(head: Metres, temperature: Celsius): Pascals {
  return waterAt(temperature).density * GRAVITY * head;
}

/**
 * Height of a grade line above the ground at every sample of a route, m; 0 where the ground is unknown. Samples and corners
 * are both in order of distance, so one walk along the route sees all.
 */
export function headsAlong({ line, height }: LineProfile, grade: GradeLine): Float64Array {
  const heads = new Float64Array(height.length);
  let corner = 1;
  for (let i = 0; i < height.length; i++) {
    if (!line.known[i]) continue;
    const at = line.at[i] ?? 0;
    while (corner < grade.at.length - 1 && (grade.at[corner] ?? 0) < at) corner++;
    const [d0 = 0, h0 = 0] = [grade.at[corner - 1], grade.head[corner - 1]];
    const [d1 = 0, h1 = 0] = [grade.at[corner], grade.head[corner]];
    const head = d1 > d0 ? h0 + ((h1 - h0) * (at - d0)) / (d1 - d0) : h1;
    heads[i] = head - (height[i] ?? 0);
  }
  return heads;
}

/** Greatest height of a grade line above the ground of a route, m; 0 where the ground is above it everywhere. */
export function greatestHead(profile: LineProfile, grade: GradeLine): Metres {
  return headsAlong(profile, grade).reduce((most, head) => Math.max(most, head), 0);
}

/** A grade line that stays level: water at rest. */
export function levelGrade(level: Metres, length: Metres): GradeLine {
  return { at: [0, length], head: [level, level] };
}
