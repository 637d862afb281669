import type { Metres, Ratio } from '../../units/quantity.ts';
import { hornGradients } from './horn.ts';
import type { ReliefSource } from './relief-source.ts';

/** What the whole of a terrain looks like, to choose colours, light and contour steps that suit it. */
export interface TerrainCharacter {
  /** Heights that leave out the lowest and highest 2 %, m. */
  readonly low: Metres;
  readonly high: Metres;
  /** Slope that three quarters of the ground stay below, rise over run. */
  readonly steep: Ratio;
}

/** About as many cells are looked at as a square of this side has. */
const LOOKED_AT = 384;
const TAIL: Ratio = 0.02;
const STEEP_SHARE: Ratio = 0.75;
/** Ground that is quite flat still gets a contour step. */
const LEAST_STEEP: Ratio = 0.002;

/** Looks at a coarse copy of the finest grid, or at its middle when the whole is too large. */
export async function terrainCharacter(source: ReliefSource, signal?: AbortSignal): Promise<TerrainCharacter> {
  const layer = source.layers[0];
  if (!layer) return { low: 0, high: 0, steep: LEAST_STEEP };
  const { pyramid, scale } = layer;
  const { columns, rows } = pyramid.grid;
  const whole = pyramid.level(Math.max(1, Math.sqrt(columns * rows) / LOOKED_AT));
  const level = whole ?? pyramid.level(1);
  if (!level) return { low: 0, high: 0, steep: LEAST_STEEP };
  const window = whole ? { column: 0, row: 0, columns: level.columns, rows: level.rows } : middleWindow(level);
  const block = await pyramid.read(level, window, signal);
  const gradients = hornGradients(block);
  const metres = pyramid.cellsOf(level) * scale.cell;
  const isKnown = (_: number, at: number) => block.known[at] === 1;
  const heights = block.heights.filter(isKnown).sort();
  const slopes = gradients.across
    .map((across, at) => Math.hypot(across, gradients.down[at] ?? 0) / metres)
    .filter(isKnown)
    .sort();
  return {
    low: quantile(heights, TAIL),
    high: quantile(heights, 1 - TAIL),
    steep: Math.max(LEAST_STEEP, quantile(slopes, STEEP_SHARE)),
  };
}

function middleWindow(level: { readonly columns: number; readonly rows: number }) {
  const column = Math.max(0, Math.floor((level.columns - LOOKED_AT) / 2));
  const row = Math.max(0, Math.floor((level.rows - LOOKED_AT) / 2));
  return { column, row, columns: Math.min(LOOKED_AT, level.columns), rows: Math.min(LOOKED_AT, level.rows) };
}

function quantile(sorted: Float32Array, share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}
