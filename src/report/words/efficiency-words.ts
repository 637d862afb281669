import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { PumpChoice } from '../../plan/model/plan.ts';

/** Where the efficiency of a pump comes from, and what that is worth. */
export function efficiencySentence(pump: PumpChoice): string {
  if (pump.measured !== null) return 'It follows what this pump was measured to take and deliver.';
  if (pump.kind === 'ram') {
    return 'It comes from a model of the beat that is not validated against a measured ram; it reads optimistic.';
  }
  return pump.efficiency === null
    ? 'It is a planning band and not measured on this pump.'
    : 'It is what its sheet states and not measured on this pump.';
}

/** An efficiency in whole percent with its spread. */
export function efficiencyWords({ low, likely, high }: Estimate): string {
  const percent = (value: number) => Math.round(value * 100);
  const range = percent(low) === percent(high) ? '' : ` (${percent(low)} to ${percent(high)} %)`;
  return `${percent(likely)} %${range}`;
}
