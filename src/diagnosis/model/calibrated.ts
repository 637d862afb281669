import { calibration } from '../../ram/cycle/calibration.ts';
import { type FieldRam, guessedDelivery } from './field-ram.ts';
import type { Readings } from './readings.ts';

/** A weight that the record asks for is believed within these factors of the one that was given. */
const BELIEVED = { least: 0.4, most: 2.5 } as const;

/**
 * The ram as its own record shows it: the level read is its fall, the gauge its lift, and the waste valve gets the weight
 * with which it takes what was taken.
 */
export function calibratedField(field: FieldRam, record: Readings | null): FieldRam {
  if (record === null) return known(field);
  const fall = record.level ?? field.fall;
  const delivery = record.deliveryAtPump ?? record.deliveryAtTank;
  const running = record.gaugeRunning === null ? null : record.gaugeRunning - field.line.headLoss(delivery ?? 0);
  const lift = record.gaugeRest ?? running ?? field.lift;
  const placed = { ...field, fall, lift: lift > fall ? lift : field.lift, line: lineOf(field, record) };
  return known(weighed(placed, record));
}

/** A line whose friction nobody gave has the friction that the record's gauge shows, by the square of the flow. */
function lineOf({ line }: FieldRam, { gaugeRunning, gaugeRest, ...record }: Readings): FieldRam['line'] {
  const delivery = record.deliveryAtPump ?? record.deliveryAtTank;
  if (gaugeRunning === null || gaugeRest === null || delivery === null || !(delivery > 0)) return line;
  if (line.headLoss(delivery) > 0 || !(gaugeRunning > gaugeRest)) return line;
  const resistance = (gaugeRunning - gaugeRest) / delivery ** 2;
  return { ...line, headLoss: (flow) => resistance * flow * flow };
}

function weighed(field: FieldRam, { waste, deliveryAtPump, deliveryAtTank }: Readings): FieldRam {
  const delivery = deliveryAtPump ?? deliveryAtTank;
  if (waste === null || delivery === null || field.closing.kind !== 'stroke') return field;
  const deliveryHead = field.lift + field.line.headLoss(delivery);
  const run = { driveFlow: waste + delivery, delivery, fall: field.fall, deliveryHead };
  const found = calibration(field.ram, field.closing.stroke, run);
  if (!found.ok) return field;
  const factor = found.value.weightHead / field.closing.weightHead;
  if (factor < BELIEVED.least || factor > BELIEVED.most) return field;
  return { ...field, closing: { ...field.closing, weightHead: found.value.weightHead } };
}

function known(field: FieldRam): FieldRam {
  return { ...field, usualDelivery: guessedDelivery(field) };
}
