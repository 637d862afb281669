import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { UNKNOWN } from '../tables/report-table.ts';
import { estimateWords } from '../words/estimate-words.ts';

/** The other system of units: whoever gets a sheet in hand may think in it. */
export function otherUnits(units: UnitSystem): UnitSystem {
  return units === 'metric' ? 'us' : 'metric';
}

/** Likely value and range in one cell; a dash where nothing is known. */
export function estimated(estimate: Estimate | null | undefined, kind: QuantityKind, units: UnitSystem): string {
  if (estimate == null) return UNKNOWN;
  const { likely, range } = estimateWords(estimate, kind, units);
  return range === null ? likely : `${likely} (${range})`;
}

export function written(value: number | null | undefined, kind: QuantityKind, units: UnitSystem): string {
  return value == null ? UNKNOWN : writeQuantity(value, kind, units);
}
