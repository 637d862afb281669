import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import { evaluate } from '../../evaluation/evaluate/evaluate.ts';
import { drivePipe, ramSystem } from '../../evaluation/model/ram-behaviour.ts';
import type { Evaluation, TankResult } from '../../evaluation/result/evaluation.ts';
import { type Site, siteOf } from '../../evaluation/site/site.ts';
import { fittingLoss } from '../../handbook/fitting-loss.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { MeasuredRun, PhysicalRam, Plan, RunRecord } from '../../plan/model/plan.ts';
import { soundRam } from '../../ram/cycle/ram-faults.ts';
import type { Heads, RamSystem } from '../../ram/cycle/ram-system.ts';
import { settingFor, weightAt } from '../../ram/cycle/valve-setting.ts';
import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import { type FieldRam, guessedDelivery, soundLine } from './field-ram.ts';
import { noReadings, type Readings } from './readings.ts';

/** Why a plan says too little of its pump to find a fault by. */
export type NoField = 'no-pump' | 'no-drive-pipe' | 'no-delivery' | 'no-fall' | 'already-arrives';

export type FieldOfPlan =
  | {
      readonly ok: true;
      readonly field: FieldRam;
      /** Whether the pump's parts are the plan's own, or those of a usual ram of this bore. */
      readonly parts: 'own' | 'usual';
      /** What the plan itself finds doubtful, by the codes of its findings. */
      readonly findings: readonly string[];
    }
  | { readonly ok: false; readonly because: NoField };

/** Parts of a ram of which only a sheet is known. Common practice, no source. */
const USUAL = { wasteValveLoss: 6, checkValveLoss: 4, checkLag: 0.004, valveStroke: 0.007 } as const;
/** Air in a usual chamber: so many times what is delivered in a beat of a second. Common practice, no source. */
const USUAL_AIR = 60;
/** A setting in the middle where nothing says how much it takes. */
const USUAL_SHARE = 0.6;

/** A plan's pump on its ground as a ram in the field: one of them, where several stand side by side. */
export function fieldOfPlan(plan: Plan, ground: Ground): FieldOfPlan {
  const evaluation = evaluate(plan, ground);
  const site = siteOf(plan, ground);
  const { pump } = evaluation;
  if (plan.pump === null || pump === null) return { ok: false, because: 'no-pump' };
  const drive = drivePipe(site);
  if (drive === null) return { ok: false, because: 'no-drive-pipe' };
  const tank = tankOf(plan, evaluation);
  if (tank?.line == null) return { ok: false, because: 'no-delivery' };
  const fall = pump.fall.likely;
  const lift = tank.line.governingLift.likely;
  if (!(fall > 0)) return { ok: false, because: 'no-fall' };
  if (!(lift > fall)) return { ok: false, because: 'already-arrives' };
  const parts = plan.pump.kind === 'ram' ? plan.pump : usualRam(plan.pump.driveBore);
  const ram = ramSystem(parts, drive, plan.waterTemperature);
  const heads = { fall, deliveryHead: lift + (tank.line.friction ?? 0) };
  const takes = pump.driveFlow === null ? null : pump.driveFlow.likely / pump.count;
  const field: FieldRam = {
    ram,
    closing: { kind: 'stroke', weightHead: weightOf(parts, ram, heads, takes), stroke: parts.valveStroke },
    faults: soundRam,
    fall,
    lift,
    airChamber: null,
    line: soundLine(lossOf(site, tank, pump.count)),
    usualDelivery: 0,
  };
  const usualDelivery = guessedDelivery(field);
  const airChamber = plan.pump.kind === 'ram' ? parts.airChamber : USUAL_AIR * usualDelivery;
  return {
    ok: true,
    field: { ...field, usualDelivery, airChamber },
    parts: plan.pump.kind === 'ram' ? 'own' : 'usual',
    findings: evaluation.findings.filter(({ verdict }) => verdict !== 'holds').map(({ code }) => code),
  };
}

/** The kept tank, else the one that most arrives at. */
function tankOf(plan: Plan, { tanks }: Evaluation): TankResult | null {
  const kept = plan.points.find((point) => point.role === 'tank' && point.standing === 'kept');
  const open = tanks.filter(({ line }) => line !== null);
  const best = open.toSorted((a, b) => (b.line?.delivery?.likely ?? 0) - (a.line?.delivery?.likely ?? 0))[0] ?? null;
  return open.find(({ id }) => id === kept?.id) ?? best;
}

function usualRam(driveBore: Metres): PhysicalRam {
  return {
    kind: 'ram',
    label: '',
    count: 1,
    driveBore,
    ...USUAL,
    valveWeightHead: null,
    airChamber: 0,
    measured: null,
  };
}

function weightOf(parts: PhysicalRam, ram: RamSystem, heads: Heads, takes: CubicMetresPerSecond | null): Metres {
  if (parts.valveWeightHead !== null) return parts.valveWeightHead;
  const found = takes === null ? null : settingFor(ram, heads, { most: takes, stroke: parts.valveStroke });
  return found?.ok ? found.setting.weightHead : weightAt(ram, heads.fall, USUAL_SHARE);
}

/** Friction of the delivery line at what one of the pumps delivers. */
function lossOf(site: Site, tank: TankResult, pumps: number): (flow: CubicMetresPerSecond) => Metres {
  const route = site.plan.routes.find(({ id }) => id === tank.line?.route);
  const pipe = route && site.pipes.get(route.pipe);
  const length = route && site.profiles.get(route.id)?.line.slope;
  if (!route || pipe === undefined || length === undefined || !(length > 0)) return () => 0;
  const ends = fittingLoss('entrance-square', pipe.bore) + fittingLoss('exit', pipe.bore);
  const k = route.fittings.reduce((sum, { fitting, count }) => sum + count * fittingLoss(fitting, pipe.bore), ends);
  const { viscosity } = waterAt(site.plan.waterTemperature);
  const line = pipeFlow({ bore: pipe.bore, roughness: pipe.roughness, length, k, viscosity });
  return (flow) => line.headLoss(flow * pumps);
}

/** A record of the plan as readings. */
export function readingsOfRecord(record: RunRecord): Readings {
  const { deliveryReadAt, delivery } = record;
  return {
    ...noReadings,
    state: 'runs',
    level: record.level,
    beatsPerMinute: record.beatsPerMinute,
    waste: record.waste,
    deliveryAtPump: deliveryReadAt === 'pump' ? delivery : null,
    deliveryAtTank: deliveryReadAt === 'tank' ? delivery : null,
    gaugeRest: record.gaugeRest,
    gaugeRunning: record.gaugeRunning,
    gaugeSwing: record.gaugeSwing,
  };
}

/** The latest record of a plan; null without any. */
export function latestRecord(plan: Plan): Readings | null {
  const last = plan.records?.at(-1);
  return last === undefined ? null : readingsOfRecord(last);
}

/** A record as a measured run of the pump; null where intake, delivery or heads were not read. */
export function measuredRun(record: RunRecord): MeasuredRun | null {
  const { level, waste, delivery, gaugeRunning, gaugeRest } = record;
  const deliveryHead = gaugeRunning ?? gaugeRest;
  if (level === null || waste === null || delivery === null || deliveryHead === null) return null;
  return { driveFlow: waste + delivery, delivery, fall: level, deliveryHead };
}
