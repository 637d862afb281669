import type { UnitSystem } from '../../units/kind.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { figureNode } from '../figure/figure-node.ts';
import { svgText } from '../figure/figure-svg.ts';
import { profileFigure } from '../profile/profile-figure.ts';
import { type ProfileSource, profileOfWay } from '../profile/profile-of-plan.ts';
import type { WaterWay } from '../tables/water-ways.ts';
import { FIGURE_COLOURS, PROFILE_STYLE } from './profile-style.ts';

/** Fits the width of a page with room for names; pixels, no source. */
const SIZE = { width: 960, height: 400 } as const;

/** The profile of one way of the water as the text of an SVG file with its own style; null where there is no height. */
export function profileSvg(source: ProfileSource, way: WaterWay, units: UnitSystem): string | null {
  const figure = profileFigure({ ...profileOfWay(source, way), units, size: SIZE, cursor: null, key: 'profile' });
  return figure === null ? null : svgText(onPaper(figure));
}

/** The figure with its title, its style and paper under it. */
function onPaper(figure: FigureNode): FigureNode {
  const title = figureNode('title', {}, figure.attributes['aria-label'] ?? '');
  const style = figureNode('style', {}, PROFILE_STYLE);
  const paper = figureNode('rect', { width: SIZE.width, height: SIZE.height, fill: FIGURE_COLOURS.sheet });
  return { ...figure, children: [title, style, paper, ...figure.children] };
}
