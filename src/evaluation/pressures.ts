import { GRAVITY } from '../hydraulics/gravity.ts';
import { waterAt } from '../hydraulics/water.ts';
import type { Celsius, Metres, Pascals } from '../units/quantity.ts';
import type { GradeLine } from './evaluation.ts';
import type { LineProfile } from './line-profile.ts';

/** Pressure of a column of the plan's water: p = ρ g h. */
export function pressureOf(head: Metres, temperature: Celsius): Pascals {
  return waterAt(temperature).density * GRAVITY * head;
}

/** Height of a grade line at a distance from its start; its corners are in order of distance. */
function gradeAt(grade: GradeLine, at: Metres): Metres {
  const next = grade.at.findIndex((d) => d >= at);
  if (next <= 0) return grade.head[next === 0 ? 0 : grade.head.length - 1] ?? 0;
  const [d0 = 0, d1 = 0] = [grade.at[next - 1], grade.at[next]];
  const [h0 = 0, h1 = 0] = [grade.head[next - 1], grade.head[next]];
  return h0 + ((h1 - h0) * (at - d0)) / (d1 - d0 || 1);
}

/** Greatest height of a grade line above the ground of a route, m; 0 where the ground is above it everywhere. */
export function greatestHead(profile: LineProfile, grade: GradeLine): Metres {
  const { line, height } = profile;
  let most = 0;
  for (let i = 0; i < height.length; i++) {
    if (line.known[i]) most = Math.max(most, gradeAt(grade, line.at[i] ?? 0) - (height[i] ?? 0));
  }
  return most;
}

/** A grade line that stays level: water at rest. */
export function levelGrade(level: Metres, length: Metres): GradeLine {
  return { at: [0, length], head: [level, level] };
}
