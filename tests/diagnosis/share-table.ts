import type { CauseCode, FaultCode } from '../../src/diagnosis/model/causes.ts';
import type { Case } from './simulated-rams.ts';

/** How often a ranking was right. */
export interface Shares {
  readonly cases: number;
  readonly first: number;
  readonly amongThree: number;
}

/** Left out of the shares: to every reading of a first visit a soft pipe is the same as air in the water. */
export const UNSEPARABLE: FaultCode = 'drive-pipe-soft';

export type How = 'withRecord' | 'without';

export function sharesOf(cases: readonly Case[], how: How): Shares {
  const places = cases.map((one) => one[how].findIndex(({ code }) => code === one.truth));
  const share = (most: number) => places.filter((place) => place >= 0 && place < most).length / places.length;
  return { cases: places.length, first: share(1), amongThree: share(3) };
}

/** A band of chances said, and how often what was said so was so. */
export interface Band {
  readonly least: number;
  readonly most: number;
  readonly said: number;
  readonly right: number;
  readonly count: number;
}

export function bandOf(cases: readonly Case[], how: How, least: number, most: number): Band {
  const told = cases.flatMap((one) => one[how].map(({ code, chance }) => ({ chance, right: code === one.truth })));
  const inside = told.filter(({ chance }) => chance >= least && chance < most);
  const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / Math.max(1, values.length);
  return {
    least,
    most,
    said: mean(inside.map(({ chance }) => chance)),
    right: mean(inside.map(({ right }) => Number(right))),
    count: inside.length,
  };
}

/** What stood first in the place of a cause, most often first. */
export function mistakenFor(cases: readonly Case[], truth: FaultCode, how: How): readonly CauseCode[] {
  const counts = new Map<CauseCode, number>();
  for (const one of cases) {
    const first = one[how][0]?.code;
    if (one.truth !== truth || first === undefined || first === truth) continue;
    counts.set(first, (counts.get(first) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1]).map(([code]) => code);
}
