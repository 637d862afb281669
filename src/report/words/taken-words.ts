import type { SourceResult } from '../../evaluation/result/evaluation.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';

/** What lines from the source to troughs take beside the pump: in the mean of a day, and while their valves are open. */
export function drawnWords({ drawn }: SourceResult, units: UnitSystem): string | null {
  if (drawn === null) return null;
  const [mean, open] = [drawn.mean, drawn.open].map((flow) => writeQuantity(flow, 'flow', units));
  return `${mean} in the mean of a day, ${open} while their valves are open`;
}
