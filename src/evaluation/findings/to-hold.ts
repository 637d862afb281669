import type { Ratio } from '../../units/quantity.ts';
import type { Judged } from './finding.ts';

/** Halvings of the search: a millionth of where it starts. */
const HALVINGS = 40;

/** Doublings after which nothing helps. */
const DOUBLINGS = 60;

/** Least step from which something is so, where it is so of every larger one; null where it never is. */
function leastStep(first: number, suffices: (step: number) => boolean): number | null {
  if (suffices(0)) return 0;
  let high = first;
  for (let i = 0; !suffices(high); i++) {
    if (i === DOUBLINGS) return null;
    high *= 2;
  }
  let low = high === first ? 0 : high / 2;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (suffices(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Chance that the limit is kept once the value is `by` better and `times` as large. */
function chance({ finding, spread }: Judged, change: { readonly by?: number; readonly times?: Ratio }): Ratio {
  const limit = finding.limit ?? 0;
  const { by = 0, times = 1 } = change;
  const reached = spread.chanceAtLeast((finding.side === 'at-least' ? limit - by : limit + by) / times);
  return finding.side === 'at-least' ? reached : 1 - reached;
}

/**
 * By how much the value must rise (or fall, where the limit is an upper one) with its spread as it is until the finding
 * holds; 0 where it does.
 */
export function byToHold(judged: Judged, confidence: Ratio): number {
  const { value, limit } = judged.finding;
  const first = Math.abs((value?.likely ?? 0) - (limit ?? 0)) || 1e-3;
  return leastStep(first, (by) => chance(judged, { by }) >= confidence) ?? 0;
}

/** Factor on the value, spread and all, with which the finding holds: above 1 for a lower limit, below 1 for an upper one. */
export function timesToHold(judged: Judged, confidence: Ratio): Ratio {
  const upper = judged.finding.side === 'at-most';
  const factor = (step: number) => (upper ? 1 / (1 + step) : 1 + step);
  const step = leastStep(1 / 16, (each) => chance(judged, { times: factor(each) }) >= confidence);
  return factor(step ?? 0);
}
