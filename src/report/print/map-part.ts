import type { FigureNode } from '../figure-node.ts';
import { planMapFigure } from '../plan-map-figure.ts';
import type { PrintSource } from './print-source.ts';
import { figureBlock } from './sheet-node.ts';

/** Width of figures on the sheet, px; the style sheet fits them to the paper. */
export const SHEET_WIDTH = 680;

/** The map of the plan; null while nothing is placed. */
export function mapBlock({ plan, units, contours }: PrintSource, mostHeight: number): FigureNode | null {
  const size = { width: SHEET_WIDTH, mostHeight };
  const lines = contours.length > 0 ? ' Thin lines are contours.' : '';
  return figureBlock(
    planMapFigure({ plan, units, contours, size, key: 'map' }),
    `North is up. Degrees of longitude and latitude, WGS 84. Numbers are points and letters are lines of the lists.${lines}`,
  );
}
