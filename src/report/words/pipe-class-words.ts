import type { ClassStretch } from '../../evaluation/evaluate/pipe-classes.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';

/** A stretch of a route and the lightest class that stands the pressure there, in words. */
export interface ClassStretchWords {
  readonly where: string;
  readonly pipe: string;
  readonly pressure: string;
}

/** Where along a route each class of pipe is enough. */
export function classStretchWords({ from, to, row, most }: ClassStretch, units: UnitSystem): ClassStretchWords {
  return {
    where: writeRange(from, to, 'length', units),
    pipe: row === null ? 'no pipe of the handbook of this size' : (pipeRow(row)?.label ?? row),
    pressure: `up to ${writeQuantity(most, 'pressure', units)}`,
  };
}
