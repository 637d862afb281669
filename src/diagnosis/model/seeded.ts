import { normalQuantile } from '../../evaluation/statistics/normal.ts';

/** Numbers that come the same every time from one seed. */
export interface Seeded {
  /** From 0 to 1, neither reached. */
  uniform(): number;
  normal(): number;
}

const ODD_STEP = 0x6d2b79f5;
const STATES = 2 ** 32;

/** A small generator for draws. Source: T. Ettinger, mulberry32 (public domain; from memory). */
export function seeded(seed: number): Seeded {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + ODD_STEP) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / STATES;
  };
  return { uniform, normal: () => normalQuantile(uniform()) };
}
