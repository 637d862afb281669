import { GRAVITY } from '../../hydraulics/gravity.ts';
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Ratio,
  Seconds,
} from '../../units/quantity.ts';
import { acceleration } from './acceleration.ts';
import { airWork, atmosphericHead, polytropicExponent } from './air.ts';
import { reopeningBand } from './limits.ts';
import { openFlow } from './lumped-cycle.ts';
import { checkLeakCounts, leakVelocity, type RamFaults, stoppingLeak } from './ram-faults.ts';
import { boreArea, type Closing, deliveryLoss, type Heads, type RamSystem } from './ram-system.ts';
import { backFlow, recoil } from './recoil.ts';
import { valveClosing } from './valve-closing.ts';

/** A ram that may be worn, leaking or full of air, at its heads. */
export interface WornRam {
  readonly ram: RamSystem;
  readonly closing: Extract<Closing, { kind: 'stroke' | 'weight' }>;
  readonly faults: RamFaults;
  /** Air in the chamber at rest; null for as much as it likes. */
  readonly airChamber: CubicMetres | null;
}

export type WornState = 'runs' | 'stopped-open' | 'stopped-shut';

/** What can be read at such a ram. Flows in m³/s. */
export interface WornRun {
  readonly state: WornState;
  /** 0 when it stands. */
  readonly beatsPerMinute: number;
  readonly waste: CubicMetresPerSecond;
  /** Through the check valve, net; negative when more comes back than goes out. */
  readonly delivery: CubicMetresPerSecond;
  /** Swing of the head in the air chamber over a beat. */
  readonly swing: Metres;
  readonly shutVelocity: MetresPerSecond | null;
}

const MINUTE = 60;

/**
 * One beat of a worn ram in closed form; made for comparing many of them, some microseconds each.
 *
 * Beside the sound cycle: heads are counted from the tail water; a leak takes its velocity from each wave step and from the
 * recoil; a leaking check valve lets water back whenever it should be shut; air under the valves takes energy from the
 * column when it is squeezed and gives it to the recoil; a chamber with hardly any air takes no more than it can.
 *
 * Source: derived here; compared with the project's own simulation in docs/diagnosis.md.
 */
export function wornCycle(worn: WornRam, given: Heads): WornRun {
  const { ram, closing, faults } = worn;
  const heads = { fall: given.fall - faults.tailWater, deliveryHead: given.deliveryHead - faults.tailWater };
  if (!(heads.fall > 0)) return standing('stopped-open', 0);
  const leaks = leaksOf(worn, heads);
  if (!(heads.deliveryHead > heads.fall)) return standing('stopped-shut', leaks.atRest);
  const shut = valveClosing(ram, heads, closing);
  if (shut === null) return standing('stopped-open', openFlow(ram, heads.fall));
  const lift = heads.deliveryHead - heads.fall;
  const stays = heads.deliveryHead < reopeningBand(ram, heads.fall, closing.weightHead).unlikelyBelow;
  if (stays || leaks.outlets + checkLeakCounts * leaks.check >= stoppingLeak(ram, lift))
    return standing('stopped-shut', leaks.atRest);
  return beat(worn, heads, leaks, {
    start: Math.max(0, shut.startVelocity - leaks.check),
    shut: Math.max(0, shut.shutVelocity - leaks.check),
    time: shut.time,
    volume: shut.volume,
  });
}

function standing(state: WornState, waste: CubicMetresPerSecond): WornRun {
  return { state, beatsPerMinute: 0, waste, delivery: 0, swing: 0, shutVelocity: null };
}

interface Leaks {
  /** Out of seat and body under the delivery head, as velocities in the drive pipe. */
  readonly outlets: MetresPerSecond;
  /** Back through the check valve. */
  readonly check: MetresPerSecond;
  /** What runs out of seat and body at rest. */
  readonly atRest: CubicMetresPerSecond;
}

function leaksOf({ ram, closing, faults }: WornRam, heads: Heads): Leaks {
  const open = faults.seatLeak + faults.bodyLeak;
  return {
    outlets: leakVelocity(open, heads.deliveryHead, ram.wasteValveLoss),
    check:
      faults.checkLeak > 0
        ? leakVelocity(faults.checkLeak, heads.deliveryHead - closing.weightHead, ram.checkValveLoss)
        : 0,
    atRest: boreArea(ram.bore) * leakVelocity(open, heads.fall, ram.wasteValveLoss),
  };
}

interface Shut {
  readonly start: MetresPerSecond;
  readonly shut: MetresPerSecond;
  readonly time: Seconds;
  readonly volume: CubicMetres;
}

function beat(worn: WornRam, heads: Heads, leaks: Leaks, shut: Shut): WornRun {
  const { ram } = worn;
  const area = boreArea(ram.bore);
  const run = acceleration(ram, heads, shut.start);
  const air = airOf(worn, heads, area, shut.shut);
  const out = delivered(ram, heads, air.velocity, leaks.outlets);
  const most = mostIntoChamber(worn, heads);
  const volume = Math.min(out.volume, most);
  const unspent = (2 * GRAVITY * (heads.deliveryHead - heads.fall) * (out.volume - volume)) / (area * ram.length);
  const back = out.count > 0 ? backFlow(ram, heads, out.residual) : { volume: 0, recoilVelocity: out.residual };
  const speed = Math.sqrt(back.recoilVelocity ** 2 + air.given + unspent);
  const returning = recoil(ram, heads.fall, Math.max(0, speed - leaks.outlets));
  const period = (2 * ram.length) / ram.waveSpeed;
  const delivering = out.count * period;
  const idle = run.time + shut.time + ram.checkLag + returning.time + air.time + (out.residual > 0 ? period : 0);
  const time = delivering + idle;
  const through = area * leaks.check * idle;
  const leaked = area * leaks.outlets * delivering;
  const net = volume - back.volume - through;
  const taken = run.volume + shut.volume + leaked + volume - back.volume - returning.volume;
  return {
    state: 'runs',
    beatsPerMinute: MINUTE / time,
    waste: Math.max(0, taken - net) / time,
    delivery: net / time,
    swing: swing(worn, heads, volume * (1 - delivering / time)),
    shutVelocity: shut.shut,
  };
}

/** Delivery in wave steps as for a sound ram, each less by what leaks out. */
function delivered(
  ram: RamSystem,
  heads: Heads,
  velocity: MetresPerSecond,
  leak: MetresPerSecond,
): { readonly count: number; readonly volume: CubicMetres; readonly residual: MetresPerSecond } {
  const step = (GRAVITY * (heads.deliveryHead - heads.fall)) / ram.waveSpeed;
  const drag = deliveryLoss(ram) / ram.waveSpeed;
  const period = (2 * ram.length) / ram.waveSpeed;
  let count = 0;
  let sum = 0;
  let u = velocity - step - (drag * velocity * velocity) / 2;
  while (u > leak) {
    count += 1;
    sum += u - leak;
    u -= 2 * step + drag * u * u;
  }
  const left = Math.max(-step, u + step);
  return { count, volume: boreArea(ram.bore) * period * sum, residual: count > 0 ? Math.min(step, left) : velocity };
}

interface AirShare {
  /** Velocity that is left once the air is squeezed. */
  readonly velocity: MetresPerSecond;
  /** What the air gives back to the recoil, m²/s². */
  readonly given: number;
  /** Time that squeezing and giving back take. */
  readonly time: Seconds;
}

/** The air under the valves: v² falls by 2 g W/(A L) as it is squeezed to the delivery head, and it gives W back. */
function airOf(worn: WornRam, heads: Heads, area: number, velocity: MetresPerSecond): AirShare {
  const { airPocket } = worn.faults;
  if (!(airPocket > 0)) return { velocity, given: 0, time: 0 };
  const between = { still: heads.fall, low: worn.closing.weightHead, high: heads.deliveryHead };
  const { work, volume } = airWork(airPocket, between);
  const perWork = (2 * GRAVITY) / (area * worn.ram.length);
  const left = Math.sqrt(Math.max(0, velocity * velocity - perWork * work));
  const given = Math.min(perWork * work, velocity * velocity);
  const share = Math.min(1, (velocity * velocity) / (perWork * work));
  const moved = (2 * share * volume) / area;
  return { velocity: left, given, time: moved / (velocity + left) + moved / Math.max(velocity / 2, Math.sqrt(given)) };
}

/** By how much more a real chamber takes, since air gets stiff only at the end; fitted to the simulation. */
const chamberAllowance: Ratio = 1.4;

/** Water that a chamber with little air can take before its trough has fallen to the fall itself. */
function mostIntoChamber(worn: WornRam, heads: Heads): CubicMetres {
  if (worn.airChamber === null) return Number.POSITIVE_INFINITY;
  const stiffness = (polytropicExponent * (heads.deliveryHead + atmosphericHead)) / worn.airChamber;
  return (2 * chamberAllowance * (heads.deliveryHead - heads.fall)) / stiffness;
}

/** The most of its air by which a chamber can swing, as a share. */
const widestSwing: Ratio = 1.7;

/** Δh = (h + 10.33)((1 − x/2)⁻ⁿ − (1 + x/2)⁻ⁿ), x = ΔV/V_a, ΔV what the chamber takes of a beat; n (h + 10.33) x when small. */
function swing(worn: WornRam, heads: Heads, taken: CubicMetres): Metres {
  if (worn.airChamber === null) return 0;
  const x = Math.min(widestSwing, Math.max(0, taken) / worn.airChamber);
  const change = (1 - x / 2) ** -polytropicExponent - (1 + x / 2) ** -polytropicExponent;
  return (heads.deliveryHead + atmosphericHead) * change;
}
