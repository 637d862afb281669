import type { Position } from '../geodesy/position.ts';
import type { Plan } from '../plan/plan.ts';
import { FOOT_M } from '../units/factor.ts';
import type { UnitSystem } from '../units/kind.ts';
import type { Metres } from '../units/quantity.ts';
import { type FigureNode, figureNode } from './figure-node.ts';
import { degreeGrid, northArrow, scaleBar } from './plan-map-axes.ts';
import { type MapFrame, mapFrame } from './plan-map-frame.ts';
import { MapLabels } from './plan-map-labels.ts';
import { lineKinds, routeLine } from './plan-map-lines.ts';

/** A contour line as data; whoever makes the picture hands it in. */
export interface MapContour {
  readonly height: Metres;
  /** Whether it is one of the stronger lines that carry their height. */
  readonly index: boolean;
  readonly line: readonly Position[];
}

/** What a map of a plan on paper shows. */
export interface PlanMapView {
  readonly plan: Plan;
  readonly units: UnitSystem;
  readonly contours: readonly MapContour[];
  readonly size: { readonly width: number; readonly mostHeight: number };
  /** Prefix of the ids inside the figure, so that two figures can share a page. */
  readonly key: string;
}

/**
 * The plan from above, north up, with a grid of degrees: points by their symbol and number, lines by their dash and letter.
 * Numbers and letters are those of the plan's order. Null while nothing is placed. Colours come from the style sheet.
 */
export function planMapFigure(view: PlanMapView): FigureNode | null {
  const { plan } = view;
  const frame = mapFrame(placesOf(plan), view.size);
  if (frame === null) return null;
  const { plot, width, height } = frame;
  const labels = new MapLabels(frame, plan);
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'plan-map',
      viewBox: `0 0 ${Math.round(width)} ${Math.round(height)}`,
      width: Math.round(width),
      height: Math.round(height),
      role: 'img',
      'aria-label': `Map of ${plan.name}`,
    },
    figureNode(
      'defs',
      {},
      figureNode(
        'clipPath',
        { id: `${view.key}-plot` },
        figureNode('rect', { x: plot.left, y: plot.top, width: plot.width, height: plot.height }),
      ),
    ),
    contourLines(view, frame),
    degreeGrid(frame),
    figureNode('rect', { class: 'frame', x: plot.left, y: plot.top, width: plot.width, height: plot.height }),
    ...plan.routes.map((route) => routeLine(route, frame)),
    ...labels.points(),
    ...labels.routes(),
    northArrow(frame),
    scaleBar(frame, view.units),
    lineKinds(plan, frame),
  );
}

/** Everything that the map is to hold. */
export function placesOf({ points, routes }: Plan): readonly Position[] {
  return [...points.map(({ position }) => position), ...routes.flatMap(({ vertices }) => vertices)];
}

function contourLines({ contours, units, key }: PlanMapView, frame: MapFrame): FigureNode | null {
  if (contours.length === 0) return null;
  const lines = contours.map((contour) => {
    const path = contour.line.map(
      ({ lon, lat }, i) => `${i === 0 ? 'M' : 'L'}${round(frame.x(lon))} ${round(frame.y(lat))}`,
    );
    return figureNode('path', { class: contour.index ? 'contour index' : 'contour', d: path.join('') });
  });
  const heights = contours.flatMap((contour) => {
    const middle = contour.line[Math.floor(contour.line.length / 2)];
    if (!contour.index || middle === undefined) return [];
    const place = { x: frame.x(middle.lon), y: frame.y(middle.lat) + 3, 'text-anchor': 'middle' };
    return [figureNode('text', { class: 'contour-height', ...place }, contourWords(contour.height, units))];
  });
  return figureNode('g', { class: 'contours', 'clip-path': `url(#${key}-plot)` }, ...lines, ...heights);
}

/** A contour's height without the digits that a round step does not have. */
function contourWords(height: Metres, units: UnitSystem): string {
  return units === 'us' ? `${round(height / FOOT_M)} ft` : `${round(height)} m`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
