import type { PumpSheet } from '../../plan/model/plan.ts';
import type { pumpSizes } from './pump-sizes.ts';

/** What suits a plan among the usual sizes of ram. */
export type PumpSizes = NonNullable<ReturnType<typeof pumpSizes>>;
export type PumpSizeRow = PumpSizes['rows'][number];

/** Whether two of a size side by side deliver more than one of it does on the same water. */
export function twoDeliverMore({ run, halfRun }: PumpSizeRow): boolean {
  return halfRun !== null && 2 * halfRun.delivery > (run?.delivery ?? 0);
}

/**
 * A pump sheet with the figures of a size as modelled, to be typed over with those of the pump that is bought; null for a size
 * that does not run. Its efficiency is left to the planning band, because the model reads optimistic.
 */
export function sheetOfSize({ size, intake }: PumpSizeRow, count = 1): PumpSheet | null {
  if (intake === null) return null;
  return {
    kind: 'sheet',
    label: `${size.inches} in (${size.nominal} mm) ram, figures of the model`,
    count,
    driveBore: size.bore,
    intakeLeast: intake.least,
    intakeMost: intake.most,
    intakeSet: null,
    efficiency: null,
    efficiencyCurve: [],
    leastDeliveryHead: null,
    measured: null,
  };
}
