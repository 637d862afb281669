import type { Draws } from '../model/draws.ts';
import { CHANNELS, type Channel, type RamState } from '../model/readings.ts';
import { measureOf, predictedAt } from './density.ts';
import type { Asked, Ranked } from './ranking.ts';

/** What a cause would do to the readings at this ram: the middle of the made-up rams that fit; null for what is not there. */
export interface Expected {
  readonly state: RamState;
  readonly values: Readonly<Record<Channel, number | null>>;
}

/** Expected readings under a ranked cause; null for something else, which says nothing. */
export function expectedUnder(draws: Draws, cause: Ranked, record: Asked['record']): Expected | null {
  const { draws: made, weights } = cause;
  if (made === null || weights === null) return null;
  const share: Record<RamState, number> = { runs: 0, 'stopped-open': 0, 'stopped-shut': 0 };
  made.states.forEach((state, i) => {
    share[state] += weights[i] as number;
  });
  const [state] = (Object.entries(share) as [RamState, number][]).sort((a, b) => b[1] - a[1])[0] ?? ['runs', 0];
  const values = Object.fromEntries(
    CHANNELS.map((channel) => {
      const measure = measureOf(channel, draws, record);
      const rows = made.states.flatMap((is, i) => (is === state ? [i] : []));
      return [channel, middle(rows.map((i) => [predictedAt(measure, draws, made.readings, i), weights[i] as number]))];
    }),
  ) as Record<Channel, number | null>;
  return { state, values };
}

/** The severity in the middle of the made-up rams that fit. */
export function severityUnder(cause: Ranked): number {
  const { draws, weights } = cause;
  if (draws === null || weights === null) return 1;
  return middle(Array.from(draws.severities, (severity, i) => [severity, weights[i] as number])) ?? 1;
}

/** Weighted median; null where no pair has both a value and a weight. */
export function middle(pairs: readonly (readonly [number, number])[]): number | null {
  const there = pairs.filter(([value, weight]) => !Number.isNaN(value) && weight > 0).sort((a, b) => a[0] - b[0]);
  const total = there.reduce((sum, [, weight]) => sum + weight, 0);
  let run = 0;
  for (const [value, weight] of there) {
    run += weight;
    if (run >= total / 2) return value;
  }
  return null;
}
