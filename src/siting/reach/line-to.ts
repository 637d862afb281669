import type { Metres } from '../../units/quantity.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { type Ways, wayTo } from '../fields/ways-from.ts';
import type { RouteSettings } from '../lines/route-settings.ts';
import { drawWay, wayThrough } from '../search/draw-way.ts';
import type { FieldPlace, HeightField } from '../search/height-field.ts';
import { shortestRule } from '../search/shortest-rule.ts';

/** A line may rise so far above the highest ground of its way: rounding between single and double precision. */
const ROUNDING: Metres = 1e-3;

/**
 * The line to lay to a cell: its way drawn as a person would, straight wherever that climbs no higher and costs no more.
 * Empty where no way leads.
 */
export function lineTo(
  ground: OpenGround,
  ways: Ways,
  cell: number,
  settings: Pick<RouteSettings, 'steepFrom' | 'steepWeight' | 'bendAsLine'>,
): readonly FieldPlace[] {
  const cells = wayTo(ways, ground, cell);
  if (cells.length < 2) return [];
  const { columns } = ground;
  const field: HeightField = { ...ground, known: ground.open };
  const places = cells.map((at) => ({ column: at % columns, row: Math.floor(at / columns) }));
  const ceiling = (ways.level[cell] as number) + ROUNDING;
  const rule = shortestRule({ ...settings, ceiling, mostCost: Number.POSITIVE_INFINITY });
  return drawWay(field, wayThrough(field, places, rule), rule, settings.bendAsLine).map(({ place }) => place);
}
