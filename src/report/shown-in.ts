import type { UnitSystem } from '../plan/plan.ts';

/** How a view words quantities in one system of units. */
export interface ShownIn {
  height(metres: number): string;
}

export function shownIn(units: UnitSystem): ShownIn {
  const unit = units === 'us' ? { metres: 0.3048, symbol: 'ft' } : { metres: 1, symbol: 'm' };
  return {
    height: (metres) => `${(metres / unit.metres).toFixed(1).replace('-', '−')} ${unit.symbol}`,
  };
}
