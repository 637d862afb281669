import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Seconds } from '../../units/quantity.ts';
import { terminalVelocity } from '../cycle/ram-system.ts';
import { type TransientSetup, TransientSystem } from './transient-system.ts';

/** Head at the pump and velocity in the drive pipe over some beats, and what happens when. */
export interface BeatCourse {
  readonly at: readonly Seconds[];
  /** Head under the valves, over the waste valve's outlet. */
  readonly head: readonly Metres[];
  /** Velocity in the drive pipe, mean of its ends. */
  readonly velocity: readonly MetresPerSecond[];
  readonly moments: readonly BeatMoment[];
  /** Whether so many beats were found; otherwise the course is that of a ram that stands. */
  readonly beats: boolean;
}

export type MomentKind = 'waste-valve-shuts' | 'check-valve-opens' | 'check-valve-shuts' | 'waste-valve-opens';

export interface BeatMoment {
  readonly kind: MomentKind;
  readonly at: Seconds;
}

/** Beats that are shown. */
const BEATS = 3;
/** Points of the curve at most; the least and greatest of what lies between are kept. */
const POINTS = 600;
/** Time scales of the column to settle in, and after which one that does not beat is taken as standing. */
const SETTLE = 16;
const PATIENCE = 30;
/** Steps between stops at which the caller may let others have their turn. */
const STRIDE = 4000;

interface Sample {
  readonly at: Seconds;
  readonly head: Metres;
  readonly velocity: MetresPerSecond;
}

/**
 * Three beats of a ram that has settled, by simulation. Gives the share that is done at every stop; whoever drives it may
 * leave it there.
 */
export function* beatCourse(setup: TransientSetup): Generator<number, BeatCourse> {
  const system = new TransientSystem(setup);
  const dt = system.pipe.timeStep;
  const scale = (setup.ram.length * terminalVelocity(setup.ram, setup.fall)) / (GRAVITY * setup.fall);
  const settle = Math.ceil((SETTLE * scale) / dt);
  const most = settle + Math.ceil((PATIENCE * scale) / dt);
  for (let step = 0; step < settle; step += 1) {
    system.step();
    if (step % STRIDE === 0) yield step / most;
  }
  const watch = new Watch(system);
  for (let step = settle; step < most && watch.openings < BEATS + 1; step += 1) {
    system.step();
    watch.look((step - settle) * dt);
    if (step % STRIDE === 0) yield step / most;
  }
  return watch.course();
}

/** Looks at a system step by step, from one opening of the waste valve to the third after it. */
class Watch {
  openings = 0;
  private readonly system: TransientSystem;
  private readonly samples: Sample[] = [];
  private readonly moments: BeatMoment[] = [];
  private wasOpen: boolean;
  private wasThrough: boolean;

  constructor(system: TransientSystem) {
    this.system = system;
    this.wasOpen = system.wasteValve.opening > 0;
    this.wasThrough = system.checkIsOpen;
  }

  look(at: Seconds): void {
    const { pump, wasteValve, checkIsOpen, datum } = this.system;
    const open = wasteValve.opening > 0;
    if (open && !this.wasOpen) {
      this.openings += 1;
      this.note('waste-valve-opens', at);
    }
    if (!open && this.wasOpen) this.note('waste-valve-shuts', at);
    if (checkIsOpen !== this.wasThrough) this.note(checkIsOpen ? 'check-valve-opens' : 'check-valve-shuts', at);
    this.wasOpen = open;
    this.wasThrough = checkIsOpen;
    // The mean of both ends, in which the waves of the column cancel.
    const velocity = (this.system.inletVelocity + pump.velocity) / 2;
    this.samples.push({ at, head: pump.head + datum, velocity });
  }

  course(): BeatCourse {
    const opened = this.moments.filter(({ kind }) => kind === 'waste-valve-opens').map(({ at }) => at);
    const beats = this.openings > BEATS;
    const from = beats ? (opened[0] as number) : 0;
    const to = beats ? (opened[BEATS] as number) : (this.samples.at(-1)?.at ?? 0);
    const shown = thinned(this.samples.filter(({ at }) => at >= from && at <= to));
    return {
      at: shown.map(({ at }) => at - from),
      head: shown.map(({ head }) => head),
      velocity: shown.map(({ velocity }) => velocity),
      moments: this.moments.filter(({ at }) => at >= from && at <= to).map(({ kind, at }) => ({ kind, at: at - from })),
      beats,
    };
  }

  private note(kind: MomentKind, at: Seconds): void {
    this.moments.push({ kind, at });
  }
}

/** Of each stretch of samples the one with the least and the one with the greatest head, in their order. */
function thinned(samples: readonly Sample[]): readonly Sample[] {
  const stride = Math.ceil((2 * samples.length) / POINTS);
  if (stride <= 1) return samples;
  const kept: Sample[] = [];
  for (let start = 0; start < samples.length; start += stride) {
    const stretch = samples.slice(start, start + stride);
    const least = stretch.reduce((low, one) => (one.head < low.head ? one : low));
    const most = stretch.reduce((high, one) => (one.head > high.head ? one : high));
    kept.push(...(least.at <= most.at ? [least, most] : [most, least]));
  }
  return kept;
}
