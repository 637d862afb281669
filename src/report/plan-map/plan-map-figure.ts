import type { Position } from '../../geodesy/position.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { FOOT_M } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { Metres } from '../../units/quantity.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { degreeGrid, northArrow, scaleBar } from './plan-map-axes.ts';
import { type MapFrame, mapFrame } from './plan-map-frame.ts';
import { MapLabels } from './plan-map-labels.ts';
import { lineKinds, linesBeside, pointsBeside, routeLine } from './plan-map-lines.ts';

/** A contour line as data; whoever makes the picture hands it in. */
export interface MapContour {
  readonly height: Metres;
  /** Whether it is one of the stronger lines that carry their height. */
  readonly index: boolean;
  readonly line: readonly Position[];
}

/** A picture of an area, to lie beneath contours and plan. */
export interface PictureBeneath {
  /** Where the picture is: data in the address itself, so that nothing is fetched. */
  readonly href: string;
  readonly bounds: MapFrame['bounds'];
}

/** What a map of a plan on paper shows. */
export interface PlanMapView {
  readonly plan: Plan;
  readonly units: UnitSystem;
  readonly contours: readonly MapContour[];
  readonly beneath?: PictureBeneath | undefined;
  /** Another plan, whose lines are dotted and whose points are rings beneath those of this one. */
  readonly beside?: Plan | undefined;
  readonly size: { readonly width: number; readonly mostHeight: number };
  /** Whether numbers and letters lead to lists beside the map, or names alone are to be read; `listed` where absent. */
  readonly labels?: 'listed' | 'names';
  /** Prefix of the ids inside the figure, so that two figures can share a page. */
  readonly key: string;
}

/**
 * The plan from above, north up, with a grid of degrees: points by their symbol and number, lines by their dash and letter.
 * Numbers and letters are those of the plan's order; a map to be read alone has names instead. Null while nothing is placed. Colours come from the style sheet.
 */
export function planMapFigure(view: PlanMapView): FigureNode | null {
  const { plan } = view;
  const frame = mapFrame(placesOf(plan, view.beside), view.size);
  if (frame === null) return null;
  const { plot, width, height } = frame;
  const byName = view.labels === 'names';
  const labels = new MapLabels(frame, plan, byName);
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
    view.beneath === undefined ? null : pictureBeneath(view.beneath, frame, view.key),
    contourLines(view, frame),
    byName ? null : degreeGrid(frame),
    figureNode('rect', { class: 'frame', x: plot.left, y: plot.top, width: plot.width, height: plot.height }),
    view.beside === undefined ? null : linesBeside(view.beside, frame),
    ...plan.routes.map((route) => routeLine(route, frame)),
    view.beside === undefined ? null : pointsBeside(view.beside, frame),
    ...labels.points(),
    ...(byName ? [] : labels.routes()),
    northArrow(frame),
    scaleBar(frame, view.units),
    lineKinds(plan, frame),
  );
}

/** Everything that the map is to hold. */
export function placesOf(plan: Plan, beside?: Plan): readonly Position[] {
  return [plan, ...(beside === undefined ? [] : [beside])].flatMap(({ points, routes }) => [
    ...points.map(({ position }) => position),
    ...routes.flatMap(({ vertices }) => vertices),
  ]);
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
    const middle = contour.index ? middleInSight(contour.line, frame) : null;
    if (middle === null) return [];
    const place = { x: round(middle.x), y: round(middle.y + 3), 'text-anchor': 'middle' };
    return [figureNode('text', { class: 'contour-height', ...place }, contourWords(contour.height, units))];
  });
  return figureNode('g', { class: 'contours', 'clip-path': `url(#${key}-plot)` }, ...lines, ...heights);
}

function pictureBeneath({ href, bounds }: PictureBeneath, { x, y }: MapFrame, key: string): FigureNode {
  const [left, right, top, foot] = [x(bounds.west), x(bounds.east), y(bounds.north), y(bounds.south)];
  return figureNode('image', {
    href,
    x: left,
    y: top,
    width: right - left,
    height: foot - top,
    preserveAspectRatio: 'none',
    'clip-path': `url(#${key}-plot)`,
  });
}

/** So much of a line must be in sight to carry its height, and its height stands so far from the edge, px. */
const LEAST_IN_SIGHT = 60;
const FROM_EDGE = 16;

/** The middle of what the frame shows of a line; null where that is too little. */
function middleInSight(line: readonly Position[], { x, y, plot }: MapFrame): { x: number; y: number } | null {
  const seen = line
    .map(({ lon, lat }) => ({ x: x(lon), y: y(lat) }))
    .filter(
      (at) =>
        at.x > plot.left + FROM_EDGE &&
        at.x < plot.left + plot.width - FROM_EDGE &&
        at.y > plot.top + FROM_EDGE &&
        at.y < plot.top + plot.height - FROM_EDGE,
    );
  const length = seen.reduce(
    (sum, at, i) => sum + Math.hypot(at.x - (seen[i - 1] ?? at).x, at.y - (seen[i - 1] ?? at).y),
    0,
  );
  return length < LEAST_IN_SIGHT ? null : (seen[Math.floor(seen.length / 2)] ?? null);
}

/** What the contours of a map are a step apart, in words; null with fewer than two heights. */
export function contourStepWords(contours: readonly MapContour[], units: UnitSystem): string | null {
  const heights = [...new Set(contours.map(({ height }) => height))].toSorted((a, b) => a - b);
  const steps = heights.slice(1).map((height, i) => height - (heights[i] ?? height));
  return steps.length === 0 ? null : contourWords(Math.min(...steps), units);
}

/** A contour's height without the digits that a round step does not have. */
function contourWords(height: Metres, units: UnitSystem): string {
  return units === 'us' ? `${round(height / FOOT_M)} ft` : `${round(height)} m`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
