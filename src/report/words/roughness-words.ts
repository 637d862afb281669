import type { UnitSystem } from '../../units/kind.ts';
import { fromSi, UNITS, type UnitName } from '../../units/unit.ts';

/** A roughness: a few hundredths of a millimetre at most, so it is written to two significant digits. */
export function roughnessWords(metres: number, units: UnitSystem): string {
  const unit: UnitName = units === 'us' ? 'inch' : 'millimetre';
  return `${Number(fromSi(metres, unit).toPrecision(2))}\u202f${UNITS[unit].label}`;
}
