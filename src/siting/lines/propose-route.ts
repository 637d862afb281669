import { distanceBetween } from '../../geodesy/geodesic.ts';
import { cellSize } from '../../terrain/grid/placed-grid.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import type { ReadWindow } from '../../terrain/ground/read-window.ts';
import type { HeightField } from '../search/height-field.ts';
import type { RouteJob } from '../search/run-search.ts';
import { proposeDelivery } from './propose-delivery.ts';
import { proposeDrive } from './propose-drive.ts';
import { proposeFalling } from './propose-falling.ts';
import type { RouteProposal, RouteRequest } from './route-proposal.ts';
import type { RouteSite } from './route-site.ts';

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
