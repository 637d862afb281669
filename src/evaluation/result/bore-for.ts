import { fittingLoss } from '../../handbook/fitting-loss.ts';
import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { RouteId } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import type { Site } from '../site/site.ts';
import { reachOfTolerance } from '../statistics/compare.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';

/** Halvings of the search for a bore: to a ten-thousandth. */
const HALVINGS = 20;

/** No pipe of this trade is wider. */
const WIDEST: Metres = 1;

/** A pipe yet to be chosen may be so much narrower than its name; the bore to ask for, for one that is surely wide enough. */
export const named = (bore: Metres): Metres => bore / (1 - reachOfTolerance(TOLERANCES.ownBore.value));

/**
 * The least bore, with its pipe's roughness, in which a route carries a flow at the cost of no more than a head; null where
 * none does, or its own bore is wide enough.
 */
export function boreFor(
  site: Site,
  id: RouteId,
  asked: { readonly flow: CubicMetresPerSecond; readonly head: Metres },
): Metres | null {
  const profile = site.profiles.get(id);
  const pipe = profile && site.pipes.get(profile.route.pipe);
  if (!profile || !pipe || !(asked.head > 0)) return null;
  const { viscosity } = waterAt(site.plan.waterTemperature);
  const loss = (bore: Metres) => {
    const ends = fittingLoss('entrance-square', bore) + fittingLoss('exit', bore);
    const k = profile.route.fittings.reduce((sum, f) => sum + f.count * fittingLoss(f.fitting, bore), ends);
    return pipeFlow({ bore, roughness: pipe.roughness, viscosity, length: profile.line.slope, k }).headLoss(asked.flow);
  };
  let [low, high] = [pipe.bore, WIDEST];
  if (loss(high) > asked.head || loss(low) <= asked.head) return null;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = Math.sqrt(low * high);
    if (loss(middle) > asked.head) low = middle;
    else high = middle;
  }
  return named(high);
}
