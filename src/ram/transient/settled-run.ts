import type { Metres, Ratio } from '../../units/quantity.ts';
import { type TransientRun, transientRun, usualReaches } from './transient-run.ts';
import type { TransientSetup } from './transient-system.ts';

/** A simulation whose grid was made finer until its answer stood still, or that says that it never did. */
export interface SettledRun extends TransientRun {
  /** Reaches of the grid that the figures are from. */
  readonly reaches: number;
  readonly settled: boolean;
  /** By how much the delivery moved at the last doubling, as a share of the larger; 1 where one ran and the other stood. */
  readonly moved: Ratio;
  /**
   * Whether the result hangs on where water boils: with the vapour's head set lower it stops or runs otherwise, or delivers
   * otherwise by more than the settling share.
   */
  readonly carriedByVapour: boolean;
}

/** The finest grid that is tried. */
const finestReaches = 320;
/** The delivery may move by this share at a doubling. */
export const settlingShare: Ratio = 0.02;
/** How much lower the vapour's head is set to see whether anything hangs on it. */
const lowerVapour: Metres = 5;

/** Doubles the reaches until the delivery moves by less than 2 % and the ram runs or stands as before. */
export function settledRun(setup: Omit<TransientSetup, 'reaches'>, firstReaches = usualReaches): SettledRun {
  let reaches = firstReaches;
  let last = transientRun({ ...setup, reaches });
  let moved: Ratio = 1;
  while (moved >= settlingShare && reaches < finestReaches) {
    reaches *= 2;
    const finer = transientRun({ ...setup, reaches });
    moved = movedBetween(last, finer);
    last = finer;
  }
  return {
    ...last,
    reaches,
    moved,
    settled: moved < settlingShare,
    carriedByVapour: hangsOnVapour(setup, last, reaches),
  };
}

function hangsOnVapour(setup: Omit<TransientSetup, 'reaches'>, run: TransientRun, reaches: number): boolean {
  if (!(run.boiling > 0) && run.lowestHead > setup.vapourHead) return false;
  const without = transientRun({ ...setup, reaches, vapourHead: setup.vapourHead - lowerVapour });
  return movedBetween(run, without) >= settlingShare;
}

function movedBetween(one: TransientRun, other: TransientRun): Ratio {
  if (one.stops !== other.stops) return 1;
  if (one.stops !== null) return 0;
  const larger = Math.max(Math.abs(one.delivery), Math.abs(other.delivery));
  return larger > 0 ? Math.abs(one.delivery - other.delivery) / larger : 0;
}
