import type { Measurement, Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from './measure-words.ts';

/** A level taken on site in one line. */
export function measurementWords(taken: Measurement, plan: Plan, units: UnitSystem): string {
  const spread = `±${writeQuantity(taken.plusMinus, 'height', units)}`;
  if (taken.kind === 'height') {
    return `${nameOf(plan, taken.point)}: ground at ${writeQuantity(taken.height, 'height', units)} ${spread}`;
  }
  const way = taken.rise < 0 ? 'below' : 'above';
  const rise = writeQuantity(Math.abs(taken.rise), 'height', units);
  return `${nameOf(plan, taken.to)}: ${rise} ${way} ${nameOf(plan, taken.from)} ${spread}`;
}
