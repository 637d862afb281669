import type { Ratio } from '../../units/quantity.ts';
import type { Rgb } from './relief-palette.ts';

/**
 * Slopes that part the classes of slope colours, rise over run: below the first, between two, and from the last on.
 *
 * 0.05, 0.15, 0.30, 0.60. Source: four of the class limits of FAO, Guidelines for soil description, 4th edition, 2006, table 7
 * (from memory). That wheeled machines reach about 30 % and tracked ones about 60 % is common practice, no source.
 */
export const SLOPE_EDGES: readonly Ratio[] = [0.05, 0.15, 0.3, 0.6];

/** Which class a slope belongs to, 0 for the gentlest; a slope on an edge belongs to the steeper side. */
export function slopeClass(slope: Ratio): number {
  let at = 0;
  while (at < SLOPE_EDGES.length && slope >= (SLOPE_EDGES[at] ?? 0)) at += 1;
  return at;
}

/** How much of a class's colour covers the ground; what is left shows the hillshade or the picture. */
export const SLOPE_COVER = 0.8;

/**
 * Colours of the slope classes from gentle to steep; null leaves the ground as it is. Each step is darker than the one before
 * on a light map and brighter on a dark one, so that their order is read in grey and by colour-blind eyes too.
 */
export const SLOPE_PALETTES: Readonly<Record<SlopeColours, readonly (Rgb | null)[]>> = {
  light: [null, [237, 185, 44], [228, 117, 68], [191, 21, 102], [47, 27, 122]],
  dark: [null, [68, 51, 187], [160, 95, 174], [240, 148, 108], [247, 236, 112]],
};

/** Which set of colours the slope classes are painted in. */
export type SlopeColours = 'light' | 'dark';
