import type { Rgb } from './relief-palette.ts';
import type { SlopeColours } from './slope-colours.ts';

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
