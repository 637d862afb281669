import type { Position } from '../../geodesy/position.ts';
import type { SourcePoint, TankPoint } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import type { FallingLay, FallingPipe } from '../fields/falling-pipe.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { stepsOn } from '../fields/steps.ts';
import { NO_STEP } from '../fields/ways-from.ts';
import { type RouteSettings, USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';
import type { PlaceSettings, PumpPlace } from '../places/pump-places.ts';
import { lineTo } from '../reach/line-to.ts';
import type { SiteWindow } from '../reach/site-window.ts';
import { drawWay, wayThrough } from '../search/draw-way.ts';
import { fallingRule } from '../search/falling-rule.ts';
import type { FieldPlace } from '../search/height-field.ts';
import type { LineAsked } from './reverse-ways.ts';
import type { SystemLines } from './system-plan.ts';

/** What stands where in a system, in cells. */
export interface SystemWish {
  readonly place: PumpPlace;
  readonly source: SourcePoint;
  readonly sourceCell: number;
  readonly tank: TankPoint;
  readonly line: LineAsked;
  readonly pipe: FallingPipe;
}

/** The lines of a system on the map, drawn as a person would lay them; null where one cannot be drawn. */
export function systemLines(site: SiteWindow, wish: SystemWish, settings: PlaceSettings): SystemLines | null {
  const { place, source, tank, line } = wish;
  const { heights } = site.ground;
  const pump = site.positionOf(place.pump);
  const standpipeAt = place.standpipe === null ? null : site.positionOf(place.standpipe);
  if (!pump || (place.standpipe !== null && !standpipeAt)) return null;
  const delivery = [...lineTo(site.ground, line.way, place.pump, USUAL_ROUTE_SETTINGS)].reverse();
  const between = positionsOf(site, delivery.slice(1, -1));
  const supply = place.standpipe === null ? [] : supplyLine(site, wish, place.standpipe);
  if (supply === null || delivery.length < 2) return null;
  const water = (heights[wish.sourceCell] as number) + source.waterLevel;
  const standpipe = standpipeAt && {
    position: standpipeAt,
    height: standpipeHeight(water + settings.freeboard - (heights[place.standpipe ?? 0] as number)),
    inletHeight: settings.inletHeight,
  };
  const start = standpipe?.position ?? source.position;
  return {
    source,
    standpipe,
    pump: { position: pump, wasteValveHeight: settings.wasteValveHeight },
    tank,
    supply: standpipe ? [source.position, ...positionsOf(site, supply.slice(1, -1)), standpipe.position] : [],
    drive: [start, pump],
    delivery: [pump, ...between, tank.position],
    driveTrench: place.drive.digging > 0 ? upTo(place.drive.rise + TRENCH_SPARE) : null,
    vented: line.level > (heights[site.cellAt(tank.position) ?? 0] as number) + tank.inletHeight,
  };
}

/**
 * How a proposed supply line may lie: hardly below the ground, so that its water line stays above every high point, and on props
 * over a hollow. Common practice, no source.
 */
export const supplyLay: FallingLay = { leastFall: USUAL_ROUTE_SETTINGS.leastFall, deepest: 0.05, highest: 0.3 };

/** A standpipe is made a little taller than it must be, in whole decimetres. Common practice, no source. */
const STANDPIPE_SPARE: Metres = 0.2;
/** How tall a standpipe is made whose top must stand so far above its ground. */
export const standpipeHeight = (least: Metres): Metres => Math.max(1, upTo(least + STANDPIPE_SPARE));

/** A trench is dug a little deeper than the ground that shows. Common practice, no source. */
const TRENCH_SPARE: Metres = 0.2;

const upTo = (height: Metres): Metres => Math.ceil(height * 10) / 10;

const positionsOf = (site: SiteWindow, places: readonly FieldPlace[]): Position[] =>
  places.flatMap((place) => site.positionAt(place) ?? []);

/** The supply line along the way of the highest falling pipe. */
function supplyLine(
  site: SiteWindow,
  { pipe, sourceCell, source }: SystemWish,
  standpipe: number,
): readonly FieldPlace[] | null {
  const { ground } = site;
  const cells = wayOfPipe(ground, pipe, standpipe);
  if (cells[0] !== sourceCell) return null;
  const { columns, heights } = ground;
  const places = cells.map((cell) => ({ column: cell % columns, row: Math.floor(cell / columns) }));
  const settings: RouteSettings = { ...USUAL_ROUTE_SETTINGS, ...supplyLay };
  const from = (heights[sourceCell] as number) + Math.max(0, source.waterLevel);
  const rule = fallingRule({ ...settings, from, to: heights[standpipe] as number });
  const field = { ...ground, known: ground.open };
  return drawWay(field, wayThrough(field, places, rule), rule, settings.bendAsLine).map(({ place }) => place);
}

function wayOfPipe(ground: OpenGround, { step }: FallingPipe, cell: number): number[] {
  const { offset } = stepsOn(ground, 16);
  const way = [cell];
  for (let at = cell; step[at] !== NO_STEP; ) {
    at -= offset[step[at] as number] as number;
    way.push(at);
  }
  return way.reverse();
}
