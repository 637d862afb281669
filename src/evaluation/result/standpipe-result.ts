import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, CubicMetresPerSecond, Metres, Ratio, Seconds, SquareMetres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { StandpipeResult } from './evaluation.ts';
import { type LevelCourse, standpipeLevel } from './standpipe-level.ts';
import { standpipePlaces } from './standpipe-place.ts';

const MINUTE: Seconds = 60;

/**
 * Share of a beat's water by which the standpipe's level swings: the drive pipe takes it in the later part of the beat while
 * the supply line brings it evenly. Half the water of an evenly rising flow is taken in the last 30 % of the time. From the
 * areas of the two flow curves; common practice, no source.
 */
const SWING_SHARE: Ratio = 0.35;

/** Beats a minute assumed where no model says more: the middle of the usual range. Common practice, no source. */
const USUAL_BEATS = 60;

/** How a standpipe's level moves around its running level. */
interface StandpipeMotion {
  /** Height between the highest and the lowest level in a beat. */
  readonly swing: Metres;
  /** How far the level overshoots when the pump is stopped or started. */
  readonly surge: Metres;
}

/** Cross section of a round pipe: π D²/4. */
export function sectionOf(bore: Metres): SquareMetres {
  return (Math.PI * bore * bore) / 4;
}

/** Steps in a period of the oscillation without friction: the peak is right to a thousandth. */
const SURGE_STEPS = 400;

/**
 * How far the level in a shaft rises above the still level when what it gave is shut off at once.
 *
 * (L / (g A_s)) dQ/dt = −z − h_f(Q), A dz/dt = Q, from Q and z = −h_f(Q) on: the column of the supply line runs on into the
 * shaft until it stands. Integrated by the midpoint rule up to its first stop. L length of the line, A_s its section, A that of
 * the shaft, h_f the line's own loss. Source: mass oscillation, Wylie and Streeter, Fluid Transients, 1978 (from memory).
 */
export function surgeAbove(about: {
  readonly flow: CubicMetresPerSecond;
  readonly length: Metres;
  readonly lineSection: SquareMetres;
  readonly section: SquareMetres;
  readonly headLoss: (flow: CubicMetresPerSecond) => Metres;
}): Metres {
  const { length, lineSection, section, headLoss } = about;
  const inertia = length / (GRAVITY * lineSection);
  const step = (2 * Math.PI * Math.sqrt(inertia * section)) / SURGE_STEPS;
  const slope = (q: number, z: Metres) => (-z - headLoss(Math.max(0, q))) / inertia;
  let q = about.flow;
  let z = -headLoss(q);
  let most = z;
  for (let i = 0; i < SURGE_STEPS && q > 0; i++) {
    const middle = { q: q + (slope(q, z) * step) / 2, z: z + ((q / section) * step) / 2 };
    q += slope(middle.q, middle.z) * step;
    z += (middle.q / section) * step;
    most = Math.max(most, z);
  }
  return Math.max(0, most);
}

/**
 * Swing and surge of a standpipe: swing Δz = 0.35 V / A, V the water of one beat, A the section of the standpipe, m²; surge by
 * `surgeAbove`.
 */
export function standpipeMotion(about: {
  readonly bore: Metres;
  readonly flow: CubicMetresPerSecond;
  readonly beatsPerMinute: number | null;
  readonly supply: {
    readonly length: Metres;
    readonly bore: Metres;
    readonly headLoss: (flow: CubicMetresPerSecond) => Metres;
  } | null;
}): StandpipeMotion {
  const section = sectionOf(about.bore);
  const beat: CubicMetres = (about.flow * MINUTE) / (about.beatsPerMinute ?? USUAL_BEATS);
  const { supply } = about;
  return {
    swing: (SWING_SHARE * beat) / section,
    surge: supply ? surgeAbove({ ...supply, flow: about.flow, section, lineSection: sectionOf(supply.bore) }) : 0,
  };
}

/**
 * Swing and surge of the standpipe at the likely flow; several pumps may beat in step. Null without one or while nothing bounds the
 * flow.
 */
function motionOf({ site, model, spread, layout }: SolvedSystem): StandpipeMotion | null {
  const { standpipe, supply } = site.arrangement;
  const flow = valueAt(spread.likely, layout.shared('running-flow'));
  if (standpipe === null || flow >= Number.MAX_VALUE) return null;
  const pipe = supply && site.pipes.get(supply.pipe);
  const profile = supply && site.profiles.get(supply.id);
  return standpipeMotion({
    bore: standpipe.bore,
    flow,
    beatsPerMinute: model.behaviour.modelled?.beatsPerMinute ?? null,
    supply:
      pipe && profile && model.supply
        ? { length: profile.line.slope, bore: pipe.bore, headLoss: (q) => model.supply?.loss.headLoss(q) ?? 0 }
        : null,
  });
}

/** Course of the level with the pump taking what it is set to, or the least it runs on, from what the source likely gives. */
function levelCourse({ site, model, spread, layout }: SolvedSystem): LevelCourse | null {
  const { source, standpipe } = site.arrangement;
  if (!source || !standpipe || model.standpipe === null || model.supply === null || model.available === null)
    return null;
  const intake = valueAt(spread.likely, layout.shared('drive-flow'));
  const inflow = valueAt(spread.likely, layout.shared('for-pump'));
  const rests = intake <= inflow && intake <= valueAt(spread.likely, layout.shared('supply-limit'));
  if (rests) return restingCourse(valueAt(spread.likely, layout.shared('running-level')), source.storage);
  const ground = model.nodes[model.standpipe.node]?.ground ?? 0;
  return standpipeLevel({
    source: (model.nodes[model.source]?.ground ?? 0) + model.waterLevel,
    inflow,
    stored: source.storage,
    supply: model.supply.loss,
    section: sectionOf(standpipe.bore),
    // Air goes in once the cover that the inlet needs is gone.
    inlet: ground + model.standpipe.inletHeight + model.standpipe.submergence,
    intake,
  });
}

/** A level that comes to rest at once for all that matters: source and line bring what the pump takes. */
function restingCourse(level: Metres, stored: CubicMetres): LevelCourse {
  return { moments: [{ time: 0, level, stored }], airAfter: null, sinksOn: false };
}

/** Everything about the standpipe; null without one, or until what feeds it is known. */
export function standpipeResult(system: SolvedSystem): StandpipeResult | null {
  const { site, model, known, layout } = system;
  const motion = motionOf(system);
  const course = levelCourse(system);
  if (site.arrangement.standpipe === null || model.standpipe === null || motion === null || course === null)
    return null;
  return {
    id: site.arrangement.standpipe.id,
    runningLevel: known.estimate(layout.shared('running-level')),
    submergence: model.standpipe.submergence,
    overInlet: known.estimate(layout.shared('over-inlet')),
    ...motion,
    course,
    places: standpipePlaces(system),
  };
}
