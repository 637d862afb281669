import type { Metres } from '../../units/quantity.ts';

/**
 * How deep a pipe is let into the ground to pass a rise or dip without being dug specially: what is less is left to the
 * trench, by what judges a line and by what proposes one. Common practice, no source.
 */
export const SHALLOW_TRENCH: Metres = 0.3;
