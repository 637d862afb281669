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
  const { length } = waysFrom(ground, seed, { kind: 'shortest' }, USUAL_ROUTE_SETTINGS.deepest);
  const tank = startingPoint('tank', 'tank', 'Tank', { lon: 0, lat: 0 });
  if (tank.role !== 'tank') return null;
  let best = -1;
  for (let cell = 0; cell < length.length; cell++) {
    if (ground.open[cell] !== 1 || (ground.heights[cell] as number) + tank.inletHeight < level) continue;
    if (best < 0 || (length[cell] as number) < (length[best] as number)) best = cell;
  }
  const position = best < 0 || !Number.isFinite(length[best]) ? null : site.positionOf(best);
  return position && { ...tank, position };
}
