export type Rgb = readonly [number, number, number];

/** Colours of one set: a soft tint from low to high ground, and what shadow and light pull it towards. */
export interface ReliefPalette {
  /** Tint from low to high; null leaves the ground clear so that a picture beneath shows. */
  readonly tint: readonly Rgb[] | null;
  readonly shadow: Rgb;
  readonly light: Rgb;
  /** How far the deepest shadow and the brightest slope pull, 0 to 1. */
  readonly shadowPull: number;
  readonly lightPull: number;
}

const PAPER_TINT: readonly Rgb[] = [
  [226, 232, 219],
  [238, 236, 222],
  [244, 238, 225],
  [242, 229, 213],
  [238, 220, 206],
];

const SLATE_TINT: readonly Rgb[] = [
  [32, 46, 52],
  [37, 49, 57],
  [44, 54, 63],
  [54, 61, 69],
  [64, 68, 75],
];

export const RELIEF_PALETTES: Readonly<Record<ReliefColours, ReliefPalette>> = {
  light: { tint: PAPER_TINT, shadow: [64, 72, 92], light: [255, 254, 247], shadowPull: 0.75, lightPull: 0.7 },
  dark: { tint: SLATE_TINT, shadow: [6, 10, 18], light: [150, 170, 186], shadowPull: 0.8, lightPull: 0.55 },
  'light-over-picture': { tint: null, shadow: [24, 28, 44], light: [255, 250, 232], shadowPull: 0.6, lightPull: 0.35 },
  'dark-over-picture': { tint: null, shadow: [4, 8, 16], light: [220, 230, 240], shadowPull: 0.65, lightPull: 0.25 },
};

/** Which set of colours the relief is painted in; the `over-picture` sets leave out the tint so that a picture shows. */
export type ReliefColours = 'light' | 'dark' | 'light-over-picture' | 'dark-over-picture';
