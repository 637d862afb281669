import { leastFall, reopeningBand } from '../../ram/cycle/limits.ts';
import { checkLeakCounts, leakVelocity, stoppingLeak } from '../../ram/cycle/ram-faults.ts';
import { boreArea, pipeLoss } from '../../ram/cycle/ram-system.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import type { CauseCode } from '../model/causes.ts';
import type { FieldRam } from '../model/field-ram.ts';
import type { Expected } from './expected.ts';

/** Numbers for the sentence of a remedy; which of them are there depends on the cause. */
export interface RemedyFacts {
  readonly code: CauseCode;
  /** Size of the fault as its cause counts it. */
  readonly severity: number;
  /** Limit beyond which it stands, counted alike; null where there is none. */
  readonly limit: number | null;
  /** Fall of the sound ram, and the least at which its waste valve lets go. */
  readonly fall: Metres;
  readonly leastFall: Metres;
  readonly lift: Metres;
  /** What is seen of it: flow, level, head or volume by the cause; null where nothing is. */
  readonly seen: number | null;
  /** Weight to take off or add, kg, for a valve plate as wide as the drive pipe. */
  readonly weight: number;
  /** Delivery and waste that it brings more (+) or less (−) than the sound ram; null while it stands. */
  readonly deliveryMore: CubicMetresPerSecond | null;
  readonly wasteMore: CubicMetresPerSecond | null;
  /** Friction in the delivery line at what leaves the pump and at what arrives. */
  readonly friction: { readonly atPump: Metres; readonly atTank: Metres } | null;
  readonly reopening: { readonly unlikelyBelow: Metres; readonly rule: Metres };
}

/** About 10 psi and twice the fall. Source: W. B. Smith, Clemson Extension, p. 23; twice the fall is common practice, no source. */
const BACK_PRESSURE: Metres = 7;
const FALLS = 2;

const WATER_DENSITY = 1000;

/** Numbers of a cause's remedy at this ram. */
export function remedyOf(
  field: FieldRam,
  given: {
    readonly code: CauseCode;
    readonly severity: number;
    readonly expected: Expected | null;
    readonly well: Expected;
  },
): RemedyFacts {
  const { code, severity, expected, well } = given;
  const { ram, closing, fall, lift } = field;
  const band = reopeningBand(ram, fall, closing.weightHead);
  const running = expected !== null && expected.state === 'runs';
  const more = (key: 'deliveryAtPump' | 'waste') =>
    running ? (expected.values[key] ?? 0) - (well.values[key] ?? 0) : null;
  return {
    code,
    severity,
    limit: limitOf(field, code),
    fall,
    leastFall: leastFall(ram, closing.weightHead),
    lift,
    seen: seenOf(field, code, severity, expected),
    weight: weightMoved(field, code, severity),
    deliveryMore: more('deliveryAtPump'),
    wasteMore: more('waste'),
    friction: code === 'delivery-leak' && running ? frictionOf(field, expected) : null,
    reopening: { unlikelyBelow: band.unlikelyBelow, rule: Math.max(FALLS * fall, BACK_PRESSURE) },
  };
}

/** The severity at which it stands: leak at the stopping edge, inlet loss, weight or fall at which the valve sticks open. */
function limitOf(field: FieldRam, code: CauseCode): number | null {
  const { ram, closing, fall, lift } = field;
  const edge = stoppingLeak(ram, lift - fall);
  if (code === 'seat-leak' || code === 'body-leak') return edge / leakVelocity(1, lift, ram.wasteValveLoss);
  if (code === 'check-leak') {
    return edge / (checkLeakCounts * leakVelocity(1, lift - closing.weightHead, ram.checkValveLoss));
  }
  if (code === 'strainer-clogged') return greatestInletLoss(field);
  if (code === 'valve-heavy') return fall / leastFall(ram, closing.weightHead);
  if (code === 'level-sunk') return leastFall(ram, closing.weightHead) / fall;
  if (code === 'outlet-drowned') return 1 - leastFall(ram, closing.weightHead) / fall;
  return null;
}

/** K_e,max = H K_wv/h_w − (f L/D + K_b + K_wv): the inlet's loss at which the waste valve is no longer lifted. */
export function greatestInletLoss({ ram, closing, fall }: FieldRam): Ratio {
  const rest = pipeLoss(ram) - ram.entranceLoss + ram.wasteValveLoss;
  return (fall * ram.wasteValveLoss) / closing.weightHead - rest;
}

function weightMoved(field: FieldRam, code: CauseCode, severity: number): number {
  if (code !== 'valve-heavy' && code !== 'valve-light') return 0;
  return WATER_DENSITY * boreArea(field.ram.bore) * field.closing.weightHead * Math.abs(severity - 1);
}

function seenOf(field: FieldRam, code: CauseCode, severity: number, expected: Expected | null): number | null {
  const values = expected?.values;
  switch (code) {
    case 'seat-leak':
      return values?.trickle ?? null;
    case 'body-leak':
      return values?.drip ?? null;
    case 'check-leak':
      return values?.backflow ?? null;
    case 'level-sunk':
      return values?.level ?? null;
    case 'outlet-drowned':
      return values?.tailWater ?? null;
    case 'chamber-empty':
      return field.airChamber === null ? null : field.airChamber * severity;
    case 'air-pocket':
      return severity * boreArea(field.ram.bore) * field.ram.length;
    case 'delivery-throttled':
      return values?.gaugeRunning == null ? null : Math.max(0, values.gaugeRunning - field.lift);
    case 'delivery-summit':
      return severity * field.lift;
    case 'delivery-leak':
      return severity * (values?.deliveryAtPump ?? 0);
    case 'no-back-pressure':
      return severity * field.lift;
    case 'drive-pipe-soft':
      return severity * field.ram.waveSpeed;
    default:
      return null;
  }
}

function frictionOf(field: FieldRam, expected: Expected): RemedyFacts['friction'] {
  const at = (flow: number | null) => (flow === null ? 0 : field.line.headLoss(flow));
  return { atPump: at(expected.values.deliveryAtPump), atTank: at(expected.values.deliveryAtTank) };
}

/** D'Aubuisson's efficiency of readings: q h/((q + w) H); null where it stands. */
export function efficiencyOf(values: Expected['values']): Ratio | null {
  const { deliveryAtPump: q, waste, gaugeRunning: head, level } = values;
  if (q === null || waste === null || head === null || level === null || !(level > 0) || !(q + waste > 0)) return null;
  return (q * head) / ((q + waste) * level);
}
