import { startingPoint } from '../../plan/model/empty-plan.ts';
import type { TankPoint } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import { waysFrom } from '../fields/ways-from.ts';
import { USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';
import type { SiteWindow } from '../reach/site-window.ts';

/** The nearest place, along the ground from the source, at which a tank's inlet lies at a level or above; null where none does. */
export function placeAtLift(site: SiteWindow, source: number, level: Metres): TankPoint | null {
  const { ground } = site;
  const seed = { cell: source, level: ground.heights[source] as number };
  const tank = startingPoint('tank', 'tank', 'Tank', { lon: 0, lat: 0 });
  if (tank.role !== 'tank') return null;
  let best = -1;
  // Cells come nearest first, to within a cell: the first that lies high enough is the one.
  waysFrom(ground, seed, { kind: 'shortest' }, USUAL_ROUTE_SETTINGS.deepest, (cell) => {
    if ((ground.heights[cell] as number) + tank.inletHeight < level) return false;
    best = cell;
    return true;
  });
  const position = best < 0 ? null : site.positionOf(best);
  return position && { ...tank, position };
}
