import { fittingLoss } from '../../handbook/fitting-loss.ts';
import { modelYield, planningBand } from '../../handbook/ram-efficiency.ts';
import { waveMaterial } from '../../handbook/wave-materials.ts';
import { frictionFactor } from '../../hydraulics/friction-factor.ts';
import { waveSpeed } from '../../hydraulics/pressure-wave.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { PhysicalRam } from '../../plan/model/plan.ts';
import { leastFall, reopeningBand } from '../../ram/cycle/limits.ts';
import { type Cycle, type LumpedRun, lumpedCycle } from '../../ram/cycle/lumped-cycle.ts';
import type { Heads, RamSystem } from '../../ram/cycle/ram-system.ts';
import { closureRange, runAt, runsAt, weightAt } from '../../ram/cycle/valve-setting.ts';
import type {
  Celsius,
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Ratio,
  Seconds,
} from '../../units/quantity.ts';
import { type Band, bandAt } from '../site/efficiency-band.ts';
import type { PipeOfPlan } from '../site/pipe-of-plan.ts';
import type { Site } from '../site/site.ts';
import { calibratedBy, runsOf, type WorkingPoint } from './measured-runs.ts';
import { overHeads } from './over-heads.ts';
import { anyPump, type ModelledRam, type PumpBehaviour } from './pump-behaviour.ts';

/** The drive pipe a ram is bolted to. */
export interface DrivePipe {
  readonly pipe: PipeOfPlan;
  readonly length: Metres;
  /** Fittings between inlet and pump. */
  readonly bendLoss: Ratio;
}

/** Settings of the waste valve between its lightest and heaviest that are tabled. */
const SETTINGS = 12;

/** Velocity at which the drive pipe's friction factor is taken: between rest and what rams shut at. */
const FRICTION_VELOCITY: MetresPerSecond = 1;

const MINUTE = 60;

/** A ram and its drive pipe as the model of the cycle takes them. */
export function ramSystem(ram: PhysicalRam, drive: DrivePipe, temperature: Celsius): RamSystem {
  const water = waterAt(temperature);
  const { pipe, length, bendLoss } = drive;
  const reynolds = (FRICTION_VELOCITY * pipe.bore) / water.viscosity;
  return {
    bore: pipe.bore,
    length,
    waveSpeed: waveSpeed({ ...water, bore: pipe.bore, wall: pipe.wall, modulus: waveMaterial(pipe.material).modulus }),
    darcyFactor: frictionFactor({ reynolds, relativeRoughness: pipe.roughness / pipe.bore }),
    entranceLoss: fittingLoss('entrance-square', pipe.bore),
    bendLoss,
    wasteValveLoss: ram.wasteValveLoss,
    checkValveLoss: ram.checkValveLoss,
    checkLag: ram.checkLag,
  };
}

interface Setting {
  readonly share: Ratio;
  readonly flow: CubicMetresPerSecond;
}

/** Intake at settings from light to heavy, those at which the ram runs, made to rise throughout. */
function settingsOf(system: RamSystem, heads: Heads, stroke: Metres): Setting[] {
  const found: Setting[] = [];
  for (let i = 0; i <= SETTINGS; i++) {
    const share = closureRange.least + ((closureRange.most - closureRange.least) * i) / SETTINGS;
    const flow = runAt(system, heads, share, stroke).cycle?.driveFlow;
    const last = found.at(-1)?.flow ?? 0;
    if (flow !== undefined && flow > last) found.push({ share, flow });
  }
  return found;
}

/** Setting that takes a flow, straight between the tabled ones. */
function shareFor(settings: readonly Setting[], flow: CubicMetresPerSecond): Ratio {
  const next = settings.findIndex((s) => s.flow >= flow);
  const [a, b] = [settings[next - 1], settings[next]];
  if (!b) return settings.at(-1)?.share ?? closureRange.most;
  if (!a) return b.share;
  return a.share + ((b.share - a.share) * (flow - a.flow)) / (b.flow - a.flow);
}

/**
 * Δh/h = 1.2 (h + 10.33) (1 − t_d/T) V_d / (V_a h): air of volume V_a takes the water of one delivery and gives it on evenly.
 *
 * h delivery head, m; t_d time of the delivery in a beat of T, s; V_d water of one delivery, V_a air, m³; 1.2 between isothermal
 * and adiabatic. Derived from p Vⁿ = const for small changes.
 */
function rippleOf(cycle: Cycle, head: Metres, chamber: CubicMetres): Ratio {
  const unevenly = 1 - cycle.times.delivering / cycle.beat;
  return (POLYTROPIC * (head + ATMOSPHERE) * unevenly * cycle.volumes.delivered) / (chamber * head);
}

/** Air pressure at sea level as a head of water, m: ISO 2533:1975. */
const ATMOSPHERE: Metres = 10.33;
const POLYTROPIC: Ratio = 1.2;

/** What the model says of a ram with a setting that stays, at its design heads and at any others. */
function modelledOf(
  runAtHeads: (heads: Heads) => LumpedRun,
  design: Heads,
  rest: Pick<ModelledRam, 'leastFall' | 'leastHead' | 'longestLag' | 'lengthFor'> & { readonly chamber: CubicMetres },
): ModelledRam {
  const run = runAtHeads(design);
  const beats = ({ cycle }: LumpedRun) => cycle && MINUTE / cycle.beat;
  const { chamber, ...limits } = rest;
  return {
    at(heads) {
      const there = runAtHeads(heads);
      return { stops: there.stops, beatsPerMinute: beats(there) };
    },
    stops: run.stops,
    beatsPerMinute: beats(run),
    shutVelocity: run.cycle?.shutVelocity ?? null,
    efficiency: run.cycle?.dAubuisson ?? null,
    highestHead: run.limits?.highestHead ?? null,
    ripple: run.cycle && rippleOf(run.cycle, design.deliveryHead, chamber),
    ...limits,
  };
}

/** Halvings of the search for a lag: to a thousandth of the ram's own. */
const LAG_HALVINGS = 10;

/** The longest lag of the check valve, up to the ram's own, at which it runs; null where it runs as it is or at none. */
function longestLag(own: Seconds, runAtLag: (lag: Seconds) => LumpedRun): Seconds | null {
  if (runAtLag(own).cycle !== null || runAtLag(0).cycle === null) return null;
  let [runs, stops] = [0, own];
  for (let i = 0; i < LAG_HALVINGS; i++) {
    const middle = (runs + stops) / 2;
    if (runAtLag(middle).cycle === null) stops = middle;
    else runs = middle;
  }
  return runs;
}

/** Steps of the search for a length. */
const LENGTH_STEPS = 20;

/** The length at which it beats so often: the beat lasts about as long as the pipe is, so each step is nearly there. */
function lengthFor(own: Metres, beats: number, runAtLength: (length: Metres) => LumpedRun): Metres | null {
  let length = own;
  for (let i = 0; i < LENGTH_STEPS; i++) {
    const { cycle } = runAtLength(length);
    if (cycle === null) return null;
    length *= MINUTE / cycle.beat / beats;
  }
  return length;
}

/** What published rams reached of a modelled efficiency. */
const scaledYield = (modelled: Ratio): Band => ({
  low: modelYield.low * modelled,
  likely: modelYield.likely * modelled,
  high: Math.min(1, modelYield.high * modelled),
});

/**
 * A ram described by its parts, at the heads it is to work at.
 *
 * Its intake range and its limits come from the model of the cycle. The closed form leaves out leakage, the body and late
 * valves: its efficiency goes through what published rams reached of it, until a measured run calibrates it.
 */
export function ramBehaviour(
  ram: PhysicalRam,
  drive: DrivePipe | null,
  site: {
    readonly heads: Heads | null;
    readonly temperature: Celsius;
    readonly available: CubicMetresPerSecond | null;
  },
): PumpBehaviour {
  const { heads } = site;
  if (drive === null || heads === null || heads.fall <= 0) return { ...anyPump(), driveBore: ram.driveBore };
  const system = ramSystem(ram, drive, site.temperature);
  const settings = settingsOf(system, heads, ram.valveStroke);
  const most = settings.at(-1)?.flow ?? 0;
  const stroke = ram.valveStroke;
  const weightHead =
    ram.valveWeightHead ?? weightAt(system, heads.fall, shareFor(settings, Math.min(most, site.available ?? most)));
  const withWeight = (at: Heads) => lumpedCycle(system, at, { kind: 'stroke', weightHead, stroke });
  const modelAt = ({ flow, fall, head }: WorkingPoint): Ratio =>
    runAt(system, { fall, deliveryHead: head }, shareFor(settings, flow), stroke).cycle?.dAubuisson ?? 0;
  const { weigh, faults, fitted } = calibratedBy((at) => scaledYield(modelAt(at)), runsOf(ram), most);
  const efficiencyFor = (u: number, { flow, fall }: Omit<WorkingPoint, 'head'>): ((head: Metres) => Ratio) => {
    const notPumped = bandAt(planningBand(1))(u);
    if (fall <= 0) return () => notPumped;
    const runs = runsAt(system, fall, { share: shareFor(settings, flow), stroke });
    return (head) => {
      if (!(head > fall)) return notPumped;
      return bandAt(weigh(scaledYield(runs(head).cycle?.dAubuisson ?? 0), { flow, fall, head }))(u);
    };
  };
  return {
    driveBore: ram.driveBore,
    intakeLeast: settings[0]?.flow ?? 0,
    intakeMost: most,
    intakeSet: ram.valveWeightHead === null ? null : (withWeight(heads).cycle?.driveFlow ?? null),
    efficiency: (u, { head, ...at }) => efficiencyFor(u, at)(head),
    efficiencyFor: (u, at) => overHeads(efficiencyFor(u, at), at.fall),
    runs: { faults, fitted },
    leastDeliveryHead: null,
    modelled: modelledOf(withWeight, heads, {
      chamber: ram.airChamber,
      leastFall: leastFall(system, weightHead),
      leastHead: reopeningBand(system, heads.fall, weightHead).unlikelyBelow,
      lengthFor: (beats) =>
        lengthFor(system.length, beats, (length) =>
          lumpedCycle({ ...system, length }, heads, { kind: 'stroke', weightHead, stroke }),
        ),
      longestLag: (at) =>
        longestLag(system.checkLag, (checkLag) =>
          lumpedCycle({ ...system, checkLag }, at, { kind: 'stroke', weightHead, stroke }),
        ),
    }),
  };
}

/** The drawn drive pipe with its fittings' losses; null until it is drawn on known ground. */
export function drivePipe(site: Site): DrivePipe | null {
  const { drive } = site.arrangement;
  const pipe = drive && site.pipes.get(drive.pipe);
  const profile = drive && site.profiles.get(drive.id);
  if (!drive || !pipe || !profile) return null;
  const bendLoss = drive.fittings.reduce((sum, f) => sum + f.count * fittingLoss(f.fitting, pipe.bore), 0);
  return { pipe, length: profile.line.slope, bendLoss };
}
