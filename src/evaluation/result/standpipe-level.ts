import type {
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Seconds,
  SquareMetres,
} from '../../units/quantity.ts';
import type { LossLaw } from '../model/system-model.ts';
import { risingRoot } from '../statistics/rising-root.ts';

/** One moment of a standpipe that is being drawn from. */
export interface LevelMoment {
  readonly time: Seconds;
  readonly level: Metres;
  /** Water left in the spring box. */
  readonly stored: CubicMetres;
}

export interface LevelCourse {
  readonly moments: readonly LevelMoment[];
  /** When the inlet is no longer covered; null when the level comes to rest above it. */
  readonly airAfter: Seconds | null;
  /** Whether it still sinks, or its store still drains, at the end of what is looked at. */
  readonly sinksOn: boolean;
}

export interface LevelQuestion {
  readonly source: Metres;
  /** What the spring brings. */
  readonly inflow: CubicMetresPerSecond;
  /** Water in the spring box above its outlet. */
  readonly stored: CubicMetres;
  readonly supply: LossLaw;
  readonly section: SquareMetres;
  /** Level at which air goes in. */
  readonly inlet: Metres;
  /** What the pump takes. */
  readonly intake: CubicMetresPerSecond;
}

/** Longest time looked at: a level that has not sunk by then is at rest for all that anyone will see. */
const LONGEST: Seconds = 30 * 86_400;
const FIRST_STEP: Seconds = 0.25;
/** Each step is longer than the one before by this factor, until something happens. */
const GROWTH = 1.05;
/** A level that moves slower than this is at rest: a millimetre in three hours. */
const AT_REST: MetresPerSecond = 1e-7;
/** How far below the inlet a level is looked for within one step. */
const BELOW_INLET: Metres = 1;

/**
 * Level of a standpipe while the pump draws from it, from full: A dz/dt = Q_line(z) − Q_pump.
 *
 * The line brings what the head between spring and standpipe drives through it, as long as the spring box holds water; once
 * the box is empty no more than the spring gives. Implicit steps (backward Euler) that lengthen as the level comes to rest,
 * so that seconds and weeks both come out; a step ends where the box runs empty or the inlet comes free.
 */
export function standpipeLevel(question: LevelQuestion): LevelCourse {
  let moment: LevelMoment = { time: 0, level: question.source, stored: question.stored };
  const moments = [moment];
  let step = FIRST_STEP;
  while (moment.time < LONGEST) {
    const next = stepFrom(question, moment, step);
    moments.push(next);
    if (next.level <= question.inlet) return { moments, airAfter: next.time, sinksOn: false };
    const rests = Math.abs(next.level - moment.level) < AT_REST * (next.time - moment.time);
    if (rests && next.stored === moment.stored) return { moments, airAfter: null, sinksOn: false };
    step = nextStep({ step, rests, emptied: next.stored === 0 && moment.stored > 0 });
    moment = next;
  }
  return { moments, airAfter: null, sinksOn: true };
}

/** A level at rest over a draining box is waited for in one step: the box's end cuts it short. */
function nextStep(last: { readonly step: Seconds; readonly rests: boolean; readonly emptied: boolean }): Seconds {
  if (last.emptied) return FIRST_STEP;
  return last.rests ? LONGEST : last.step * GROWTH;
}

function stepFrom(question: LevelQuestion, moment: LevelMoment, step: Seconds): LevelMoment {
  const { source, inlet, inflow, section, intake } = question;
  const lowest = inlet - BELOW_INLET;
  const flowAt = (level: Metres): CubicMetresPerSecond => {
    const driven = question.supply.flowFor(Math.max(0, source - level));
    return moment.stored > 0 ? driven : Math.min(driven, inflow);
  };
  const risen = risingRoot(
    (x) => (section * (lowest + x - moment.level)) / step - flowAt(lowest + x) + intake,
    source - lowest,
  );
  const level = lowest + risen;
  const draining = flowAt(level) - inflow;
  const untilEmpty = draining > 0 && moment.stored > 0 ? moment.stored / draining : Number.POSITIVE_INFINITY;
  const untilFree = level < inlet ? (step * (moment.level - inlet)) / (moment.level - level) : Number.POSITIVE_INFINITY;
  const taken = Math.min(step, untilEmpty, untilFree);
  const share = taken / step;
  return {
    time: moment.time + taken,
    level: untilFree <= taken ? inlet : moment.level + (level - moment.level) * share,
    stored: untilEmpty <= taken ? 0 : clamp(moment.stored - draining * taken, question.stored),
  };
}

const clamp = (stored: CubicMetres, most: CubicMetres) => Math.min(most, Math.max(0, stored));
