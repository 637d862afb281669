import type { Plan } from '../../plan/model/plan.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { contourStepWords, placesOf, planMapFigure } from '../plan-map/plan-map-figure.ts';
import { type MapFrame, mapFrame } from '../plan-map/plan-map-frame.ts';
import type { PrintSource } from './print-source.ts';
import { figureBlock } from './sheet-node.ts';

/** Width of figures on the sheet, px; the style sheet fits them to the paper. */
export const SHEET_WIDTH = 680;

/** The most height that the map takes on any sheet, px. */
const MOST_HEIGHT = 900;

/** The ground that the map of a plan, or of two, may show on any sheet; null while nothing is placed. */
export function mapBounds(plan: Plan, beside?: Plan): MapFrame['bounds'] | null {
  const frames = [MOST_HEIGHT, MOST_HEIGHT / 3, MOST_HEIGHT / 5].map((mostHeight) =>
    mapFrame(placesOf(plan, beside), { width: SHEET_WIDTH, mostHeight }),
  );
  const [first, ...others] = frames.flatMap((frame) => frame?.bounds ?? []);
  if (first === undefined) return null;
  return others.reduce(
    (all, { west, east, south, north }) => ({
      west: Math.min(all.west, west),
      east: Math.max(all.east, east),
      south: Math.min(all.south, south),
      north: Math.max(all.north, north),
    }),
    first,
  );
}

const LISTED =
  'North is up. Degrees of longitude and latitude, WGS 84. Numbers are points and letters are lines of the lists.';

/** The map of the plan; null while nothing is placed. */
export function mapBlock(
  { plan, units, contours }: PrintSource,
  mostHeight: number,
  labels: 'listed' | 'names' = 'listed',
): FigureNode | null {
  const size = { width: SHEET_WIDTH, mostHeight };
  const step = contourStepWords(contours, units);
  const lines = step === null ? '' : ` Thin lines are contours every ${step}.`;
  return figureBlock(
    planMapFigure({ plan, units, contours, size, labels, key: 'map' }),
    labels === 'names' ? `North is up.${lines}` : `${LISTED}${lines}`,
  );
}
