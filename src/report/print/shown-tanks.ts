import type { TankResult } from '../../evaluation/result/evaluation.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { PrintSource } from './print-source.ts';

const ORDER: readonly (Verdict | null)[] = ['holds', 'measure', 'fails', null];

/** The tanks that a short sheet speaks of: those that were kept, else the one of the candidates that gets furthest. */
export function shownTanks({ plan, site }: PrintSource): readonly TankResult[] {
  const tanks = site?.evaluation.tanks ?? [];
  const standing = (wanted: string) =>
    tanks.filter(({ id }) => plan.points.some((p) => p.id === id && p.role === 'tank' && p.standing === wanted));
  const kept = standing('kept');
  if (kept.length > 0) return kept;
  const [best] = standing('candidate').toSorted(byPromise);
  return best === undefined ? [] : [best];
}

function byPromise(one: TankResult, other: TankResult): number {
  const rank = ORDER.indexOf(one.verdict) - ORDER.indexOf(other.verdict);
  return rank !== 0 ? rank : arrives(other) - arrives(one);
}

function arrives({ line }: TankResult): number {
  return line?.deliveryPerDay?.likely ?? 0;
}
