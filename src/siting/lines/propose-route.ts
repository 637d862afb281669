import { distanceBetween } from '../../geodesy/geodesic.ts';
import { cellSize } from '../../terrain/grid/placed-grid.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import type { ReadWindow } from '../../terrain/ground/read-window.ts';
import type { Metres } from '../../units/quantity.ts';
import type { HeightField } from '../search/height-field.ts';
import { legBetween } from '../search/leg.ts';
import type { RouteJob } from '../search/run-search.ts';
import { proposeDelivery } from './propose-delivery.ts';
import { proposeFalling } from './propose-falling.ts';
import type { RouteProposal, RouteRequest } from './route-proposal.ts';
import { drawnRoute, endHeights, type RouteSite } from './route-site.ts';

/** Proposes a line between two ends by the ground between them, for the user to accept or to bend. */
export async function proposeRoute(
  request: RouteRequest,
  terrain: GridTerrain,
  job: RouteJob = {},
): Promise<RouteProposal> {
  const { from, to, settings } = request;
  const distance = distanceBetween(from.position, to.position);
  const wish = {
    around: [from.position, to.position],
    margin: Math.max(settings.lookAroundLeast, settings.lookAround * distance),
    mostCells: settings.mostCells,
  };
  const read = await terrain.groundWindow(wish, job.signal);
  if (read.kind === 'no-height') return read;
  const site = siteOf(request, read.window);
  switch (request.role) {
    case 'drive':
      return proposeDrive(site);
    case 'delivery':
      return proposeDelivery(site, job);
    case 'supply':
    case 'gravity':
      return proposeFalling(site, job);
  }
}

function siteOf(request: RouteRequest, window: ReadWindow): RouteSite {
  const { block, cell, file, coarser } = window;
  const field: HeightField = { ...block, cell };
  const placeOf = (position: RouteRequest['from']['position']) => {
    const at = window.cellAt(position);
    if (!at) throw new Error(`an end: found no cell, expected one, as it has a height`);
    return {
      column: Math.min(Math.max(at.column - HALF_CELL, 0), block.columns - 1),
      row: Math.min(Math.max(at.row - HALF_CELL, 0), block.rows - 1),
    };
  };
  return {
    request,
    field,
    ends: { from: placeOf(request.from.position), to: placeOf(request.to.position) },
    positionAt: ({ column, row }) => window.positionAt({ column: column + HALF_CELL, row: row + HALF_CELL }),
    ground: { file, coarser, cell: cellSize(cell) },
  };
}

/** Cell places count from the corner of the first cell, field places from its middle. */
const HALF_CELL = 0.5;

/**
 * A drive pipe is straight in plan and in height, so there is only one to propose: how far the ground stands above and below it.
 *
 * It is blocked where it does not fall, or where it would lie deeper below the ground than a trench may be.
 */
function proposeDrive(site: RouteSite): RouteProposal {
  const { request, field, ends, ground } = site;
  const leg = legBetween(field, ends.from, ends.to);
  if (!leg) return { kind: 'cut-off', ground };
  const heights = endHeights(site);
  const inlet = heights.from + request.from.height;
  const pump = heights.to + request.to.height;
  const steps = leg.ground.length - 1;
  const fallMissing = request.settings.leastFall * leg.step * steps - (inlet - pump);
  if (fallMissing > 0) return { kind: 'blocked', at: request.to.position, excess: fallMissing, anyway: null, ground };
  const worst = { share: 0, below: 0, above: 0 };
  for (let k = 0; k <= steps; k++) {
    const share = k / steps;
    const below: Metres = (leg.ground[k] as number) - (inlet + (pump - inlet) * share);
    worst.above = Math.max(worst.above, -below);
    if (below > worst.below) Object.assign(worst, { share, below });
  }
  const way = [ends.from, ends.to].map((place) => ({ place, carried: { first: 0, second: 0 } }));
  const cut = { below: worst.below, above: worst.above };
  const route = { ...drawnRoute(site, way), governingLift: null, cut };
  const excess = worst.below - request.settings.deepest;
  if (excess > 0) {
    const column = ends.from.column + (ends.to.column - ends.from.column) * worst.share;
    const row = ends.from.row + (ends.to.row - ends.from.row) * worst.share;
    const at = site.positionAt({ column, row }) ?? request.to.position;
    return { kind: 'blocked', at, excess, anyway: route, ground };
  }
  return { kind: 'route', ...route, other: null, ground };
}
