import { measuredPoint } from '../check/check-measurements.ts';
import type { HerdGroup, Measurement, Plan, PointId, PumpChoice, RunRecord, YieldReading } from '../model/plan.ts';
import { type Edit, refused } from './edit.ts';
import { finishEdit } from './finish-edit.ts';

/** Chooses the pump, or takes the choice back with null. */
export function setPump(plan: Plan, pump: PumpChoice | null): Edit {
  return finishEdit(plan, { ...plan, pump }, { code: 'set-pump', name: pump?.label ?? '' });
}

export function setHerd(plan: Plan, herd: readonly HerdGroup[]): Edit {
  return finishEdit(plan, { ...plan, herd }, { code: 'set-herd', name: '' });
}

export function setYieldReadings(plan: Plan, yieldReadings: readonly YieldReading[]): Edit {
  return finishEdit(plan, { ...plan, yieldReadings }, { code: 'set-readings', name: '' });
}

/** Keeps the records of the pump, the oldest first. */
export function setRecords(plan: Plan, records: readonly RunRecord[]): Edit {
  const inOrder = records.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return finishEdit(plan, { ...plan, records: inOrder }, { code: 'set-records', name: '' });
}

/** Enters a measurement; an earlier one of the same point gives way to it. */
export function setMeasurement(plan: Plan, taken: Measurement): Edit {
  const point = measuredPoint(taken);
  const index = plan.measurements.findIndex((earlier) => measuredPoint(earlier) === point);
  const measurements = index < 0 ? [...plan.measurements, taken] : plan.measurements.with(index, taken);
  return finishEdit(plan, { ...plan, measurements }, { code: 'set-measurement', name: nameOf(plan, point) });
}

/** Enters one more reading beside those that are there. */
export function addMeasurement(plan: Plan, taken: Measurement): Edit {
  const measurements = [...plan.measurements, taken];
  return finishEdit(
    plan,
    { ...plan, measurements },
    { code: 'set-measurement', name: nameOf(plan, measuredPoint(taken)) },
  );
}

/** Enters several readings as one step. */
export function addMeasurements(plan: Plan, taken: readonly Measurement[]): Edit {
  const [only] = taken;
  const name = only !== undefined && taken.length === 1 ? nameOf(plan, measuredPoint(only)) : '';
  return finishEdit(
    plan,
    { ...plan, measurements: [...plan.measurements, ...taken] },
    { code: 'set-measurement', name },
  );
}

/** Changes one reading by its place in the list, or takes it back with null. */
export function changeMeasurement(plan: Plan, index: number, taken: Measurement | null): Edit {
  const present = plan.measurements[index];
  if (present === undefined) return refused('unknown-reference', String(index), 'a reading of this plan');
  const measurements = taken === null ? plan.measurements.toSpliced(index, 1) : plan.measurements.with(index, taken);
  const code = taken === null ? 'remove-measurement' : 'set-measurement';
  return finishEdit(plan, { ...plan, measurements }, { code, name: nameOf(plan, measuredPoint(present)) });
}

/** Takes back what was measured of a point. */
export function removeMeasurement(plan: Plan, point: PointId): Edit {
  const measurements = plan.measurements.filter((taken) => measuredPoint(taken) !== point);
  if (measurements.length === plan.measurements.length) {
    return refused('unknown-reference', point, 'a point that was measured');
  }
  return finishEdit(plan, { ...plan, measurements }, { code: 'remove-measurement', name: nameOf(plan, point) });
}

function nameOf(plan: Plan, id: PointId): string {
  return plan.points.find((point) => point.id === id)?.name ?? '';
}
