import { type FieldRam, guessedDelivery, soundLine } from '../../diagnosis/model/field-ram.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import { soundRam } from '../../ram/cycle/ram-faults.ts';
import { balancedWeight, terminalVelocity } from '../../ram/cycle/ram-system.ts';
import { weightForRatio } from '../../ram/cycle/valve-setting.ts';
import { type CycleFile, refusal } from './cycle-file.ts';

/** Roughness of the delivery line, m: polyethylene. The file does not ask for it. */
const SMOOTH = 1.5e-6;
/** Temperature of its water, °C. */
const COLD = 10;
/** Entrance and exit. */
const LOCAL = 1.5;

/** A ram in the field from its file; the delivery head's friction is taken off where the line is given. */
export function fieldOfFile(name: string, file: CycleFile): FieldRam {
  const { ram, fall, deliveryHead, airChamber } = file;
  if (!(deliveryHead > fall)) {
    throw refusal(name, 'delivery_head_m', String(deliveryHead), `more than the fall of ${fall}`);
  }
  const closing = closingOf(name, file);
  const loss = lossOf(file);
  const field: FieldRam = {
    ram,
    closing,
    faults: soundRam,
    fall,
    lift: deliveryHead,
    airChamber,
    line: soundLine(loss),
    usualDelivery: 0,
  };
  // The head was given with its friction, so what is delivered at that head tells the friction.
  const friction = loss(guessedDelivery({ ...field, line: soundLine(() => 0) }));
  const lifted = { ...field, lift: Math.max((fall + deliveryHead) / 2, deliveryHead - friction) };
  return { ...lifted, usualDelivery: guessedDelivery(lifted) };
}

function lossOf({ line }: CycleFile): (flow: number) => number {
  if (line === null) return () => 0;
  const pipe = pipeFlow({ ...line, roughness: SMOOTH, k: LOCAL, viscosity: waterAt(COLD).viscosity });
  return (flow) => pipe.headLoss(flow);
}

function closingOf(name: string, file: CycleFile): FieldRam['closing'] {
  const { ram, fall, closureRatio, weightHead, stroke, closingTime } = file;
  const moves = stroke !== null && closingTime === null;
  if (weightHead !== null) {
    return moves
      ? { kind: 'stroke', weightHead, stroke }
      : { kind: 'weight', weightHead, closingTime: closingTime ?? 0 };
  }
  const ratio = closureRatio ?? 0;
  if (!moves) {
    const balanced = balancedWeight(ram, ratio * terminalVelocity(ram, fall));
    return { kind: 'weight', weightHead: balanced, closingTime: closingTime ?? 0 };
  }
  const found = weightForRatio(ram, file, ratio, stroke);
  if (found === null) throw refusal(name, 'closure_ratio', String(ratio), 'a ratio that this stroke can shut at');
  return { kind: 'stroke', weightHead: found, stroke };
}
