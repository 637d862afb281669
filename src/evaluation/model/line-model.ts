import { fittingLoss } from '../../handbook/fitting-loss.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { PlanRoute } from '../../plan/model/plan.ts';
import type { PlaceOnSlope } from '../../terrain/accuracy/height-covariance.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { Metres, MetresPerSecond, Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { HeightNode } from '../site/height-net.ts';
import { drawingIndex } from '../site/herd-shares.ts';
import { type LineProfile, SHALLOW_TRENCH, trenchOf } from '../site/line-profile.ts';
import { lengthDoubt } from '../site/pipe-of-plan.ts';
import type { Site } from '../site/site.ts';
import { Z975 } from '../statistics/normal.ts';
import type { NodeBook } from './height-nodes.ts';
import type { HighPlace, LossLaw, NodeIndex } from './system-model.ts';

/** A drawn line as the model uses it. */
export interface DrawnLine {
  readonly loss: LossLaw;
  /** Standard deviation of the logarithm of the line's loss, from the tolerances of bore, roughness and length. */
  readonly lossDoubt: Ratio;
  readonly highPlaces: readonly HighPlace[];
}

/** Loss of a line from its start to a share of its length: friction along the slope, entrance, exit and fittings. */
function lossUpTo(site: Site, route: PlanRoute): ((share: number) => LossLaw) | null {
  const pipe = site.pipes.get(route.pipe);
  const profile = site.profiles.get(route.id);
  if (pipe === undefined || profile === undefined) return null;
  const { viscosity } = waterAt(site.plan.waterTemperature);
  const ends = fittingLoss('entrance-square', pipe.bore) + fittingLoss('exit', pipe.bore);
  const k = route.fittings.reduce((sum, f) => sum + f.count * fittingLoss(f.fitting, pipe.bore), ends);
  const length = profile.line.slope;
  return (share) =>
    pipeFlow({ bore: pipe.bore, roughness: pipe.roughness, viscosity, length: length * share, k: k * share });
}

/** Velocity at which the doubt of a loss is taken: what these lines usually run at. */
const DOUBT_VELOCITY: MetresPerSecond = 0.5;

/**
 * Doubt of a line's loss: the logarithm of its range between the tolerances of bore and roughness, read as a 95 % interval,
 * and that of the length it will be laid at.
 */
function lossDoubt(site: Site, route: PlanRoute): Ratio {
  const pipe = site.pipes.get(route.pipe);
  if (pipe === undefined) return 0;
  const { viscosity } = waterAt(site.plan.waterTemperature);
  const flow = (DOUBT_VELOCITY * Math.PI * pipe.bore ** 2) / 4;
  const lossPerMetre = (bore: Metres, roughness: Metres) =>
    pipeFlow({ bore, roughness, viscosity, length: 1, k: 0 }).headLoss(flow);
  const most = lossPerMetre(pipe.boreLow, pipe.roughnessHigh);
  const least = lossPerMetre(pipe.boreHigh, pipe.roughnessLow);
  const length = site.profiles.get(route.id)?.line.slope ?? 0;
  return Math.hypot(Math.log(most / least) / (2 * Z975), lengthDoubt(length));
}

/** A route's pipe and summits; null when it is not drawn or its ground is not known yet. */
export function drawnLine(site: Site, route: PlanRoute | null, book: NodeBook): DrawnLine | null {
  const profile = route && site.profiles.get(route.id);
  const upTo = route && lossUpTo(site, route);
  if (!profile || !upTo) return null;
  let rank = 0;
  // No output rests on summits of two lines, but for what lines from the source take.
  const drawing = drawingIndex(site, route);
  const group = drawing === null ? 'summit' : `summit of drawing ${drawing}`;
  const add = (node: HeightNode) => book.add(node, `${group} ${rank++}`);
  return { loss: upTo(1), lossDoubt: lossDoubt(site, route), highPlaces: highPlaces(profile, { add, lossUpTo: upTo }) };
}

/**
 * The high places of a line as nodes of the model, the highest first. `add` takes a node in and gives its index; `lossUpTo`
 * gives the law of the pipe from its start to a share of its length.
 */
function highPlaces(
  { line, brows, route }: LineProfile,
  make: { readonly add: (node: HeightNode) => NodeIndex; readonly lossUpTo: (share: number) => LossLaw },
): HighPlace[] {
  return brows.map(({ sample, height, summit }) => {
    const at = valueAt(line.at, sample);
    // A pipe that is dug in deeper than the ground's unevenness passes the high place by so much lower.
    const node: HeightNode = {
      ground: height - Math.max(0, trenchOf(route) - SHALLOW_TRENCH),
      dem: placeOf(line, sample),
    };
    return { node: make.add(node), at, loss: make.lossUpTo(line.horizontal > 0 ? at / line.horizontal : 0), summit };
  });
}

/** A sample with the doubt of its height that a point there would have, but for a shift along the line. */
function placeOf(line: GroundLine, sample: number): PlaceOnSlope {
  const { smoothing, other } = line.doubt;
  const accuracy = other?.accuracy.get(valueAt(other.mark, sample));
  return {
    position: { lon: valueAt(line.lon, sample), lat: valueAt(line.lat, sample) },
    slope: slopeAcross(line, sample),
    smoothing: valueAt(smoothing, sample),
    ...(accuracy && { accuracy }),
  };
}

/**
 * Slope across the line: √(s² − s_l²), s the slope of the ground, s_l that along the line. A line shifted along itself meets the
 * same summit or brow, one shifted to its side another height. Source: closed form.
 */
function slopeAcross(line: GroundLine, sample: number): Ratio {
  const along = Math.min(slopeBefore(line, sample), slopeBefore(line, sample + 1));
  return Math.sqrt(Math.max(0, valueAt(line.doubt.slope, sample) ** 2 - along ** 2));
}

/** Steepness of the line between a sample and the one before it; 0 where there is no ground. */
function slopeBefore({ at, ground, known }: GroundLine, sample: number): Ratio {
  if (!known[sample] || !known[sample - 1]) return 0;
  const run = valueAt(at, sample) - valueAt(at, sample - 1);
  return run > 0 ? Math.abs(valueAt(ground, sample) - valueAt(ground, sample - 1)) / run : 0;
}
