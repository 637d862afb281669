import type { StopReason } from '../../ram/cycle/lumped-cycle.ts';
import type { Heads } from '../../ram/cycle/ram-system.ts';
import type { ModelledRam } from '../model/pump-behaviour.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { quotient, reachOfTolerance, type Spread, spreadOf, within95 } from '../statistics/compare.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import { chanceOf, type Judged, judge, sure, undecided } from './finding.ts';

/** Stops that other findings speak of: `lift-out-of-reach` and `pump-needless`. */
const TOLD_ELSEWHERE: readonly StopReason[] = ['delivery-head-too-high', 'no-pump-needed'];

/** Stops that the findings of the waste valve speak of. */
const VALVE_STOPS: readonly StopReason[] = ['waste-valve-sticks-open', 'waste-valve-stays-shut'];

/** The model at the likely heads or at others. */
type Run = Pick<ModelledRam, 'stops' | 'beatsPerMinute'>;

/** A ram described by its parts, as the model of the cycle sees it around its design heads. A sheet is not judged here. */
export function judgeRam(system: SolvedSystem): Judged[] {
  const { modelled } = system.model.behaviour;
  if (modelled === null) return judgeRuns(system);
  const around = headsAround(system).map((heads) => modelled.at(heads));
  const valve = judgeValve(system, modelled);
  const valveTells = valve.some(({ finding }) => finding.verdict !== 'holds');
  const told = new Set<StopReason | null>([...TOLD_ELSEWHERE, ...(valveTells ? VALVE_STOPS : [])]);
  return [
    ...judgeRuns(system),
    ...judgeStops(system, [modelled, ...around], told),
    ...valve,
    ...judgeBeat(system, modelled, around),
    ...judgeChamber(system, modelled),
  ];
}

/** Whether its measured runs can be of this pump; nothing without any. */
function judgeRuns({ site, model }: SolvedSystem): Judged[] {
  const { faults, fitted } = model.each.runs;
  if (faults.length + fitted === 0) return [];
  const about = site.arrangement.pump?.id ?? '';
  const [fault] = faults;
  return [
    judge('run-unlike', site.plan.confidence, {
      about,
      spread: fault === undefined ? sure(0) : undecided(faults.length),
      limit: 0,
      facts: fault === undefined ? {} : { fault },
    }),
  ];
}

/** Whether it beats, at the likely heads first and at those around; stops that are told otherwise are left out. */
function judgeStops({ site }: SolvedSystem, runs: readonly Run[], told: ReadonlySet<StopReason | null>): Judged[] {
  const stops = runs.map((run) => run.stops);
  const [likely = null] = stops;
  if (told.has(likely)) return [];
  const open = stops.filter((each) => !told.has(each));
  const reason = open.find((each) => each !== null) ?? null;
  return [
    judge('ram-stops', site.plan.confidence, {
      about: site.arrangement.pump?.id ?? '',
      spread: chanceOf(likely === null, open.filter((each) => each === null).length / open.length),
      limit: 1,
      facts: reason === null ? {} : { [likely === null ? 'edge' : 'reason']: reason },
    }),
  ];
}

/** The waste valve must lift at the running fall, and fall open again against every delivery line. */
function judgeValve({ site, model, known, layout }: SolvedSystem, modelled: ModelledRam): Judged[] {
  const { confidence } = site.plan;
  const output = layout.shared('fall');
  const sticks = judge('valve-sticks', confidence, {
    about: site.arrangement.pump?.id ?? '',
    spread: known.spread(output),
    limit: modelled.leastFall,
    limitReach: reachOfTolerance(TOLERANCES.valve.value * modelled.leastFall),
    output,
  });
  const opens = model.destinations.flatMap((destination, i) => {
    if (destination.loss === null) return [];
    const head = layout.destination(i, 'back-pressure-head');
    const limit = modelled.leastHead;
    return [
      judge('valve-stays-shut', confidence, {
        about: destination.id,
        spread: known.spread(head),
        limit,
        limitReach: reachOfTolerance(TOLERANCES.valve.value * limit),
        output: head,
      }),
    ];
  });
  return [sticks, ...opens];
}

function judgeBeat({ site }: SolvedSystem, { beatsPerMinute }: ModelledRam, around: readonly Run[]): Judged[] {
  if (beatsPerMinute === null) return [];
  const spread = beatSpread(beatsPerMinute, around);
  const about = site.arrangement.pump?.id ?? '';
  const { confidence } = site.plan;
  return [judge('beat-slow', confidence, { about, spread }), judge('beat-fast', confidence, { about, spread })];
}

/** Whether the air of the chamber evens the beat out. */
function judgeChamber({ site }: SolvedSystem, { ripple }: ModelledRam): Judged[] {
  if (ripple === null) return [];
  const off = TOLERANCES.beat.value;
  const spread = within95({ low: ripple * (1 - off), likely: ripple, high: ripple * (1 + off) });
  return [judge('air-ripple', site.plan.confidence, { about: site.arrangement.pump?.id ?? '', spread })];
}

/** The beat may be off because the heads are, and because the model is. */
function beatSpread(likely: number, around: readonly Run[]): Spread {
  const beats = [likely, ...around.flatMap(({ beatsPerMinute }) => beatsPerMinute ?? [])];
  const off = TOLERANCES.beat.value;
  const byModel = within95({ low: likely * (1 - off), likely, high: likely * (1 + off) });
  const byHeads = spreadOf({ low: likely / Math.max(...beats), likely: 1, high: likely / Math.min(...beats) });
  return quotient(byModel, byHeads);
}

/** Heads that the ram may meet on the highest line: fall and lift each at their 10th and 90th percentile. */
function headsAround({ model, known, layout }: SolvedSystem): Heads[] {
  const lifts = model.destinations.flatMap((d, i) =>
    d.loss === null ? [] : [known.estimate(layout.destination(i, 'governing-lift'))],
  );
  const [lift] = lifts.toSorted((a, b) => b.likely - a.likely);
  if (lift === undefined) return [];
  const fall = known.estimate(layout.shared('fall-at-rest'));
  return [fall.low, fall.high].flatMap((each) =>
    [lift.low, lift.high].map((deliveryHead) => ({ fall: each, deliveryHead })),
  );
}
