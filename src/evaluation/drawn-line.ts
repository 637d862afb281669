import { fittingLoss } from '../handbook/fitting-loss.ts';
import { pipeFlow } from '../hydraulics/pipe-flow.ts';
import { waterAt } from '../hydraulics/water.ts';
import type { PlanRoute } from '../plan/plan.ts';
import type { HeightNode } from './heights.ts';
import { highPlaces } from './high-places.ts';
import type { NodeBook } from './node-book.ts';
import type { Site } from './system.ts';
import type { HighPlace, LossLaw } from './system-model.ts';

/** A drawn line as the model uses it. */
export interface DrawnLine {
  readonly loss: LossLaw;
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

/** A route's pipe and summits; null when it is not drawn or its ground is not known yet. */
export function drawnLine(site: Site, route: PlanRoute | null, book: NodeBook): DrawnLine | null {
  const profile = route && site.profiles.get(route.id);
  const upTo = route && lossUpTo(site, route);
  if (!profile || !upTo) return null;
  let rank = 0;
  const add = (node: HeightNode) => book.add(node, `${route.role} summit ${rank++}`);
  return { loss: upTo(1), highPlaces: highPlaces(profile, { add, lossUpTo: upTo }) };
}
