import type { DeliveryResult } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';

/** An estimate for reading: its likely value, and its low and high as a range; null where the two say the same. */
export interface EstimateWords {
  readonly likely: string;
  readonly range: string | null;
}

export function estimateWords(estimate: Estimate, kind: QuantityKind, units: UnitSystem): EstimateWords {
  const range = writeRange(estimate.low, estimate.high, kind, units);
  const likely = writeQuantity(estimate.likely, kind, units);
  return { likely, range: range === likely ? null : range };
}

/** What sets the height that the pump must lift to. */
export function governedWords(governedBy: DeliveryResult['governedBy'], units: UnitSystem): string {
  if (governedBy === 'outlet') return 'its inlet';
  return `high point at ${writeQuantity(governedBy.summit, 'length', units)}`;
}
