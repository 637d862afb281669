import type { Samples } from '../codec/samples.ts';
import type { DecodedBlock } from './block-cache.ts';
import { isAlsoVoid, meansNothing } from './no-data.ts';

/** Lowest and highest ground a file may hold, m. The Dead Sea's shore lies at −430 m, the highest summit at 8 849 m. */
export const PLAUSIBLE = { lowest: -500, highest: 9000 } as const;

/** Below this, apart from 0, no number is a height: subnormal bits read as floating point. */
const TINIEST = 1e-30;

/** How stored numbers become metres: height = raw · factor + add. */
export interface HeightRule {
  /** The stored number that means "no height"; null where none is stated. */
  readonly noData: number | null;
  /** Further stored numbers that mean the same; absent: none. */
  readonly alsoVoid?: readonly number[];
  readonly factor: number;
  readonly add: number;
}

export function heightOf(raw: number, rule: HeightRule): number {
  return raw * rule.factor + rule.add;
}

/** The stored number behind a height, exact where heights are stored in metres. */
export function rawOf(height: number, rule: HeightRule): number {
  return (height - rule.add) / rule.factor;
}

/** A height is within the ground's range, and 0 or no tinier than arithmetic leaves: else its bits meant something else. */
export function isPlausible(height: number): boolean {
  return height >= PLAUSIBLE.lowest && height <= PLAUSIBLE.highest && (height === 0 || Math.abs(height) > TINIEST);
}

/** The part of a block that lies on the raster: edge tiles reach beyond it, and what stands there is padding. */
export interface BlockExtent {
  readonly stride: number;
  readonly columns: number;
  readonly rows: number;
}

/** Heights of a block in metres, unknown where the stored number says so and on the padding. */
export function heightsFromSamples(samples: Samples, rule: HeightRule, extent: BlockExtent): DecodedBlock {
  if (samples instanceof Float32Array && fitsFloat32(samples, rule)) return floatsAsTheyAre(samples, rule, extent);
  const heights = fitsFloat32(samples, rule) ? new Float32Array(samples.length) : new Float64Array(samples.length);
  const known = new Uint8Array(samples.length);
  let odd = false;
  const stated = rule.noData ?? Number.NaN;
  const { factor, add, alsoVoid = [] } = rule;
  const several = alsoVoid.length > 0;
  for (let row = 0; row < extent.rows; row++) {
    const end = row * extent.stride + extent.columns;
    for (let i = row * extent.stride; i < end; i++) {
      const raw = samples[i] as number;
      if (meansNothing(raw, stated) || (several && isAlsoVoid(raw, alsoVoid))) continue;
      const height = raw * factor + add;
      heights[i] = height;
      known[i] = 1;
      odd ||= !isPlausible(height);
    }
  }
  return { heights, known, odd };
}

/** Metres in 32-bit floating point are heights already: the samples themselves, with nothing where no height is. */
function floatsAsTheyAre(heights: Float32Array, rule: HeightRule, extent: BlockExtent): DecodedBlock {
  const known = new Uint8Array(heights.length);
  const stated = rule.noData ?? Number.NaN;
  const { alsoVoid = [] } = rule;
  const { highest } = PLAUSIBLE;
  const one = alsoVoid.length === 0;
  let odd = false;
  for (let row = 0; row < extent.rows; row++) {
    const start = row * extent.stride;
    const end = start + extent.columns;
    known.fill(1, start, end);
    for (let i = start; i < end; i++) {
      const raw = heights[i] as number;
      // Ordinary heights above the sea, at once.
      if (raw > TINIEST && raw <= highest && raw !== stated && one) continue;
      if (meansNothing(raw, stated) || isAlsoVoid(raw, alsoVoid)) {
        heights[i] = 0;
        known[i] = 0;
      } else odd ||= !isPlausible(raw);
    }
    heights.fill(0, end, (row + 1) * extent.stride);
  }
  heights.fill(0, extent.rows * extent.stride);
  return { heights, known, odd };
}

/** Whether heights in metres are exact in 32-bit floating point. */
function fitsFloat32(samples: Samples, rule: HeightRule): boolean {
  if (rule.factor !== 1 || rule.add !== 0) return false;
  return samples.BYTES_PER_ELEMENT < 4 || samples instanceof Float32Array;
}
