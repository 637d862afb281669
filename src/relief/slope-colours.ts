/** Which set of colours the slope classes are painted in. */
export type SlopeColours = 'light' | 'dark';
