import type { QuantityKind } from '../units/kind.ts';
import { readQuantity } from '../units/read-quantity.ts';

/** The SI value of a figure as it was published, with the published unit; an unreadable one is a wrong data file. */
export function published(text: string, kind: QuantityKind): number {
  const reading = readQuantity(text, kind);
  if (reading.ok) return reading.value;
  throw new Error(`found ${reading.found} in the handbook, expected ${reading.expected}`);
}
