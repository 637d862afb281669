import type { Metres } from '../../units/quantity.ts';
import { legBetween } from '../search/leg.ts';
import type { RouteProposal } from './route-proposal.ts';
import { drawnRoute, endHeights, type RouteSite } from './route-site.ts';

/**
 * A drive pipe is straight in plan and in height, so there is only one to propose: how far the ground stands above and below it.
 *
 * It is blocked where it does not fall, or where it would lie deeper below the ground than a trench may be.
 */
export function proposeDrive(site: RouteSite): RouteProposal {
  const { request, field, ends, ground } = site;
  const leg = legBetween(field, ends.from, ends.to);
  if (!leg) return { kind: 'cut-off', ground };
  const heights = endHeights(site);
  const inlet = heights.from + request.from.height;
  const pump = heights.to + request.to.height;
  const steps = leg.ground.length - 1;
  const fallMissing = request.settings.leastFall * leg.step * steps - (inlet - pump);
  if (fallMissing > 0) return { kind: 'blocked', at: request.to.position, excess: fallMissing, ground };
  const worst = { share: 0, below: 0, above: 0 };
  for (let k = 0; k <= steps; k++) {
    const share = k / steps;
    const below: Metres = (leg.ground[k] as number) - (inlet + (pump - inlet) * share);
    worst.above = Math.max(worst.above, -below);
    if (below > worst.below) Object.assign(worst, { share, below });
  }
  const excess = worst.below - request.settings.deepest;
  if (excess > 0) {
    const column = ends.from.column + (ends.to.column - ends.from.column) * worst.share;
    const row = ends.from.row + (ends.to.row - ends.from.row) * worst.share;
    return { kind: 'blocked', at: site.positionAt({ column, row }) ?? request.to.position, excess, ground };
  }
  const way = [ends.from, ends.to].map((place) => ({ place, carried: { first: 0, second: 0 } }));
  const cut = { below: worst.below, above: worst.above };
  return { kind: 'route', ...drawnRoute(site, way), governingLift: null, cut, other: null, ground };
}
