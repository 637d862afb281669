import { openFlow } from '../../ram/cycle/lumped-cycle.ts';
import { leakVelocity, type RamFaults } from '../../ram/cycle/ram-faults.ts';
import { boreArea, type RamSystem } from '../../ram/cycle/ram-system.ts';
import { type WornRam, type WornRun, wornCycle } from '../../ram/cycle/worn-cycle.ts';
import type { CubicMetres, CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { noReadings, type RamState, type Readings, withDerived } from './readings.ts';

/** A ram in the field with its delivery line. Heads over the waste valve's outlet. */
export interface FieldRam {
  readonly ram: RamSystem;
  readonly closing: WornRam['closing'];
  readonly faults: RamFaults;
  /** Running level at the drive pipe's inlet. */
  readonly fall: Metres;
  /** Level that governs the delivery: its outlet, or a vented high place before it. */
  readonly lift: Metres;
  /** Air in the chamber at rest; null for plenty. */
  readonly airChamber: CubicMetres | null;
  readonly line: FieldLine;
  /** What it delivers when it is well. */
  readonly usualDelivery: CubicMetresPerSecond;
}

/** The delivery line, and what may be wrong with it. */
export interface FieldLine {
  /** Friction of the sound line. */
  readonly headLoss: (flow: CubicMetresPerSecond) => Metres;
  /** Further loss r in h = r q². */
  readonly throttle: number;
  /** What of the water that leaves the pump is lost before the outlet. */
  readonly lost: Ratio;
  /** Level to which the water in the line sinks at rest; null where it stands at the governing level. */
  readonly sinksTo: Metres | null;
}

export const soundLine = (headLoss: FieldLine['headLoss']): FieldLine => ({
  headLoss,
  throttle: 0,
  lost: 0,
  sinksTo: null,
});

/** Share of the head by which a second look at the friction must move it to be taken. */
const nearEnough: Ratio = 0.004;
/** Looks at the friction at most. */
const mostLooks = 7;

/** Times the usual delivery up to which a started ram is looked for. */
const mostFlow = 8;

interface Settled {
  readonly run: WornRun;
  readonly head: Metres;
}

/**
 * Pump and line together: the head at which what the pump delivers needs just that head. A look at the usual friction is
 * mostly enough; else the root is enclosed and found by false position (Illinois).
 */
function settle(field: FieldRam): Settled {
  const needs = (flow: CubicMetresPerSecond) => {
    const size = Math.max(0, flow);
    return field.lift + field.line.headLoss(size) + field.line.throttle * size * size;
  };
  const runAt = (head: Metres) => wornCycle(field, { fall: field.fall, deliveryHead: head });
  const guess = field.line.throttle > 0 ? field.lift : needs(field.usualDelivery);
  let run = runAt(guess);
  let low = { head: guess, gap: needs(run.delivery) - guess };
  // With little lift the friction of its own flow may keep it going: that is where it settles once it was started.
  for (let times = 2; run.state === 'stopped-shut' && times <= mostFlow && low.gap <= 0; times *= 2) {
    const head = needs(times * field.usualDelivery);
    const tried = runAt(head);
    if (tried.state !== 'runs') continue;
    run = tried;
    low = { head, gap: needs(tried.delivery) - head };
  }
  if (Math.abs(low.gap) <= nearEnough * guess) return { run, head: guess + low.gap };
  let high = { head: guess + low.gap, gap: 0 };
  run = runAt(high.head);
  high.gap = needs(run.delivery) - high.head;
  let at = high;
  for (let look = 0; look < mostLooks && Math.abs(at.gap) > nearEnough * at.head; look += 1) {
    const span = low.gap - high.gap;
    const head = span === 0 ? (low.head + high.head) / 2 : low.head + ((high.head - low.head) * low.gap) / span;
    run = runAt(Math.max(field.lift, head));
    at = { head: Math.max(field.lift, head), gap: needs(run.delivery) - Math.max(field.lift, head) };
    if (at.gap * low.gap > 0) {
      low = at;
      high = { head: high.head, gap: high.gap / 2 };
    } else {
      high = at;
      low = { head: low.head, gap: low.gap / 2 };
    }
  }
  return { run, head: at.head };
}

/** What somebody would read at this ram, by the closed form; null for what is not there to be read. */
export function readingsOf(field: FieldRam): Readings {
  const { run, head } = settle(field);
  const rest = restGauge(field, run.state);
  const still = {
    ...noReadings,
    state: run.state,
    gaugeRest: rest,
    level: field.fall,
    tailWater: field.faults.tailWater,
    trickle: outOfLeak(field, field.faults.seatLeak),
    drip: outOfLeak(field, field.faults.bodyLeak),
    backflow: backflowOf(field),
    lineHolds: field.line.sinksTo === null && field.line.lost === 0 ? 1 : 0,
  };
  if (run.state === 'runs') return withDerived({ ...still, ...running(field, run, head) });
  const pour = run.state === 'stopped-open' ? pourOf(field) : null;
  return {
    ...still,
    waste: pour ?? run.waste,
    deliveryAtPump: 0,
    deliveryAtTank: 0,
    gaugeRunning: rest,
    pour,
    runsThrottled: run.state === 'stopped-shut' ? Number(runsAgainstThrottle(field)) : null,
  };
}

function running(field: FieldRam, run: WornRun, head: Metres): Partial<Readings> {
  const delivery = Math.max(0, run.delivery);
  return {
    beatsPerMinute: run.beatsPerMinute,
    beatsAfterFlush: run.beatsPerMinute,
    waste: run.waste + Math.min(0, run.delivery),
    deliveryAtPump: delivery,
    deliveryAtTank: delivery * (1 - field.line.lost),
    gaugeRunning: run.delivery > 0 ? head : field.lift,
    gaugeSwing: run.swing,
  };
}

/** At rest the gauge shows the water in the line, or, where the check valve lets it back, the level of the fall. */
function restGauge(field: FieldRam, state: RamState): Metres {
  const stands = field.line.sinksTo ?? field.lift;
  const leaksBack = field.faults.checkLeak > 0 && state !== 'runs';
  return leaksBack ? Math.min(stands, field.fall) : Math.max(stands, Math.min(field.fall, field.lift));
}

/** A leak of seat or body at rest: y A √(2 g H/K_wv); the body's does not come out of the waste valve. */
function outOfLeak({ ram, faults, fall }: FieldRam, leak: Ratio): CubicMetresPerSecond {
  return boreArea(ram.bore) * leakVelocity(leak, fall - faults.tailWater, ram.wasteValveLoss);
}

/** Check valve leak into the drained body: y A √(2 g h/K_cv). */
function backflowOf(field: FieldRam): CubicMetresPerSecond {
  const { ram, faults, lift } = field;
  return boreArea(ram.bore) * leakVelocity(faults.checkLeak, lift, ram.checkValveLoss);
}

/** A √(2 g H/M). */
function pourOf(field: FieldRam): CubicMetresPerSecond {
  return openFlow(field.ram, Math.max(0, field.fall - field.faults.tailWater));
}

/** Head in falls that a nearly shut delivery valve gives: well above the planning rule of two. */
const throttledFalls = 6;

function runsAgainstThrottle(field: FieldRam): boolean {
  const deliveryHead = Math.max(field.lift, throttledFalls * field.fall);
  return wornCycle(field, { fall: field.fall, deliveryHead }).state === 'runs';
}

/** What a bucket at the pump would show when it is well: the friction is first looked up there. */
export function guessedDelivery(field: FieldRam): CubicMetresPerSecond {
  const rough = Math.max(0, wornCycle(field, { fall: field.fall, deliveryHead: field.lift }).delivery);
  return readingsOf({ ...field, usualDelivery: rough }).deliveryAtPump ?? rough;
}
