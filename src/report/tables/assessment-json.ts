import type {
  Evaluation,
  Finding,
  LineResult,
  MeasureFirst,
  StandpipeResult,
  TankResult,
} from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { LITRE_M3, MINUTE_S } from '../../units/factor.ts';
import type { QuantityKind } from '../../units/kind.ts';
import { answerSentence } from '../findings/answer-words.ts';
import { findingWords } from '../findings/finding-words.ts';
import { measureReason } from '../findings/measure-reason.ts';
import { measureWords, nameOf } from '../words/measure-words.ts';

const PER_MINUTE = MINUTE_S / LITRE_M3;

type E = { readonly low: number; readonly likely: number; readonly high: number };

const times = (e: Estimate, factor: number): E => ({
  low: e.low * factor,
  likely: e.likely * factor,
  high: e.high * factor,
});
const metres = (e: Estimate): E => times(e, 1);
const perMinute = (e: Estimate | null): E | null => e && times(e, PER_MINUTE);
const litres = (e: Estimate | null): E | null => e && times(e, 1 / LITRE_M3);

/** Unit in which a quantity leaves the program as JSON, and how many of it are in one SI unit. */
const JSON_UNITS: Readonly<Record<QuantityKind, readonly [unit: string, perSi: number]>> = {
  height: ['m', 1],
  length: ['m', 1],
  bore: ['mm', 1000],
  flow: ['L/min', PER_MINUTE],
  'daily-volume': ['L/day', 1 / LITRE_M3],
  volume: ['L', 1 / LITRE_M3],
  pressure: ['kPa', 1e-3],
  ratio: ['1', 1],
  share: ['1', 1],
  velocity: ['m/s', 1],
  duration: ['s', 1],
  temperature: ['degC', 1],
  mass: ['kg', 1],
  count: ['1', 1],
};

/** An evaluation as the command line answers it: units in the names of the keys. */
export function assessmentJson(plan: Plan, evaluation: Evaluation): Readonly<Record<string, unknown>> {
  return {
    format: 'rillwright/assessment',
    version: 1,
    verdict: evaluation.verdict,
    answer: answerJson(plan, evaluation),
    points: evaluation.points.map((point) => ({
      id: point.id,
      role: point.role,
      lon: plan.points.find((p) => p.id === point.id)?.position.lon ?? null,
      lat: plan.points.find((p) => p.id === point.id)?.position.lat ?? null,
      ground_m: point.ground,
      ground_from: point.groundFrom,
      level_m: point.level,
      smoothing_m: point.smoothing,
    })),
    lines: evaluation.lines.map(lineJson),
    source: {
      flow_L_per_min: perMinute(evaluation.source.flow),
      available_L_per_min: perMinute(evaluation.source.available),
      drawn_L_per_min: evaluation.source.drawn && {
        mean: evaluation.source.drawn.mean * PER_MINUTE,
        open: evaluation.source.drawn.open * PER_MINUTE,
      },
    },
    pump: evaluation.pump && {
      fall_at_rest_m: evaluation.pump.fallAtRest.likely,
      fall_at_rest_range_m: metres(evaluation.pump.fallAtRest),
      fall_m: metres(evaluation.pump.fall),
      fall_bias_m: evaluation.pump.fallBias,
      drive_flow_L_per_min: perMinute(evaluation.pump.driveFlow),
      count: evaluation.pump.count,
      supply_limit_L_per_min: perMinute(evaluation.pump.supplyLimit)?.likely ?? null,
      supply_limit_range_L_per_min: perMinute(evaluation.pump.supplyLimit),
      spill_L_per_min: perMinute(evaluation.pump.spill),
      efficiency: evaluation.pump.efficiency,
    },
    standpipe: evaluation.standpipe && standpipeJson(evaluation.standpipe),
    tanks: evaluation.tanks.map(tankJson),
    troughs: evaluation.troughs.map((trough) => ({
      id: trough.id,
      need_L_per_day: trough.needPerDay === null ? null : trough.needPerDay / LITRE_M3,
      flow_L_per_min: perMinute(trough.flow),
      still_head_m: trough.stillHead,
      below_source_m: trough.belowSource,
    })),
    findings: evaluation.findings.map((finding) => findingJson(finding, plan)),
    measure_first: evaluation.measureFirst.map((measure) => measureJson(measure, plan, evaluation)),
  };
}

/** The three questions, each by itself. */
function answerJson(plan: Plan, evaluation: Evaluation): unknown {
  const { state, missing, runs, arrives, first } = evaluation.answer;
  return {
    state,
    sentence: answerSentence(evaluation.answer, plan),
    missing,
    runs: { verdict: runs.verdict, chance: runs.chance, because: runs.because && findingJson(runs.because, plan) },
    arrives: {
      about: arrives.about,
      verdict: arrives.verdict,
      chance: arrives.chance,
      delivery_L_per_day: litres(arrives.perDay),
      if_running_L_per_day: litres(arrives.ifRunningPerDay),
      need_L_per_day: arrives.needPerDay === null ? null : arrives.needPerDay / LITRE_M3,
      because: arrives.because && findingJson(arrives.because, plan),
    },
    first: first && measureJson(first, plan, evaluation),
  };
}

function lineJson(line: LineResult): unknown {
  return {
    id: line.id,
    role: line.role,
    horizontal_m: line.horizontal,
    slope_m: line.slope,
    start_m: line.start,
    end_m: line.end,
    lowest_m: line.lowest,
    highest_m: line.highest,
    void_m: line.void,
    summits: line.turnings.filter((t) => t.kind === 'summit').map((t) => ({ at_m: t.at, ground_m: t.ground })),
    sags: line.turnings.filter((t) => t.kind === 'sag').map((t) => ({ at_m: t.at, ground_m: t.ground })),
    flow_L_per_min: line.flow === null ? null : line.flow * PER_MINUTE,
    velocity_m_s: line.velocity,
    friction_m: line.friction,
    pressure_kPa: line.pressure && {
      still: line.pressure.still / 1000,
      running: line.pressure.running / 1000,
      blocked: line.pressure.blocked / 1000,
    },
    rating_kPa: line.rating === null ? null : line.rating / 1000,
  };
}

function standpipeJson(standpipe: StandpipeResult): unknown {
  const { places } = standpipe;
  return {
    id: standpipe.id,
    running_level_m: standpipe.runningLevel,
    over_inlet_m: standpipe.overInlet,
    submergence_m: standpipe.submergence,
    swing_m: standpipe.swing,
    surge_m: standpipe.surge,
    air_after_s: standpipe.course.airAfter,
    places: places && {
      drive_length_m: places.stretches.map((s) => [s.from, s.to]),
      best: places.best && {
        drive_length_m: places.best.driveLength,
        ground_m: places.best.ground,
        height_m: places.best.height,
      },
    },
  };
}

function tankJson(tank: TankResult): unknown {
  const { line } = tank;
  return {
    id: tank.id,
    lift_m: metres(tank.lift),
    lift_bias_m: tank.liftBias,
    governing_lift_m: line && metres(line.governingLift),
    governed_by: line && (line.governedBy === 'outlet' ? 'inlet' : 'summit'),
    governed_at_m: line && line.governedBy !== 'outlet' ? line.governedBy.summit : null,
    lift_over_fall: line?.liftOverFall ?? null,
    delivery_L_per_min: line && perMinute(line.delivery),
    delivery_L_per_day: line && litres(line.deliveryPerDay),
    if_running_L_per_day: line && litres(line.ifRunningPerDay),
    runs_chance: line?.runs ?? null,
    friction_m: line?.friction ?? null,
    demand_L_per_day: tank.demandPerDay === null ? null : tank.demandPerDay / LITRE_M3,
    storage_days: tank.storageDays,
    verdict: tank.verdict,
  };
}

function findingJson(finding: Finding, plan: Plan): unknown {
  const [unit, perSi] = JSON_UNITS[finding.quantity];
  const words = findingWords(finding, { units: plan.units, nameOf: (id) => nameOf(plan, id) });
  return {
    code: finding.code,
    about: finding.about,
    verdict: finding.verdict,
    bears: finding.bears,
    value: finding.value && finding.value.likely * perSi,
    range: finding.value && times(finding.value, perSi),
    limit: finding.limit === null ? null : finding.limit * perSi,
    side: finding.side,
    unit,
    chance: finding.chance,
    sentence: [words.sentence, words.remedy].filter((s) => s !== '').join(' '),
    source: finding.source,
  };
}

function measureJson(measure: MeasureFirst, plan: Plan, evaluation: Evaluation): unknown {
  const [unit, perSi] = JSON_UNITS[measure.unit];
  const words = measureWords(measure, plan, plan.units);
  return {
    quantity: measure.quantity,
    about: measure.about,
    what: words.title,
    why: measureReason(measure, evaluation, plan, plan.units),
    settles: measure.settles,
    share: measure.share,
    expected: measure.expected && times(measure.expected, perSi),
    aim: measure.aim === null ? null : measure.aim * perSi,
    unit,
  };
}
