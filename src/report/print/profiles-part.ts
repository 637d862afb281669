import type { PointId } from '../../plan/model/plan.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { profileFigure } from '../profile/profile-figure.ts';
import { profileOfWay } from '../profile/profile-of-plan.ts';
import { type WaterWay, waterWays } from '../tables/water-ways.ts';
import { nameOf } from '../words/measure-words.ts';
import { SHEET_WIDTH } from './map-part.ts';
import type { PrintSource } from './print-source.ts';
import { figureBlock } from './sheet-node.ts';

/** Four profiles fit on a page. */
const HEIGHT = 208;

/** Every whole way of the water; each line by itself where none leads on. */
export function wholeWays({ plan }: PrintSource): readonly WaterWay[] {
  const ways = waterWays(plan);
  const joined = new Set(ways.filter(({ routes }) => routes.length > 1).flatMap(({ routes }) => routes));
  return ways.filter(({ routes }) => routes.length > 1 || routes.every((id) => !joined.has(id)));
}

/** The way from the source over the pump to one tank; null while it is not drawn. */
export function wayToTank({ plan }: PrintSource, tank: PointId): WaterWay | null {
  const delivery = plan.routes.find((route) => route.role === 'delivery' && route.to === tank);
  const way = delivery && waterWays(plan).find(({ routes }) => routes.includes(delivery.id));
  if (delivery === undefined || way === undefined) return null;
  const routes = way.routes.slice(0, way.routes.indexOf(delivery.id) + 1);
  const start = plan.routes.find(({ id }) => id === routes[0])?.from ?? delivery.from;
  return { id: routes.join(' '), title: `${nameOf(plan, start)} to ${nameOf(plan, tank)}`, routes };
}

/** The profile of one way under its title; null without ground. */
export function profileBlock(
  { plan, units, site }: PrintSource,
  way: WaterWay,
  key: string,
  look: { readonly height?: number; readonly key?: string } = {},
): FigureNode | null {
  if (site === null) return null;
  const { evaluation, ground } = site;
  const { points, lines, accuracy } = ground;
  const content = profileOfWay({ plan, evaluation, points, lines, accuracy }, way);
  const figure = profileFigure({
    ...content,
    units,
    size: { width: SHEET_WIDTH, height: look.height ?? HEIGHT },
    cursor: null,
    key,
  });
  return figureBlock(figure, look.key === undefined ? way.title : `${way.title}. ${look.key}`);
}

export const PROFILE_KEY =
  'Shaded band: how sure the ground heights are against the pump, 8 in 10 times within it. Thin solid line: the height to which water would rise while running; dotted: at rest. Wedges mark high and low points.';

/** The same for a reader who does not build it. */
export const SHORT_PROFILE_KEY =
  'Side view, heights stretched. Shaded band: how sure the ground heights are. Thin line: how high the water would rise.';
