import type { Metres } from '../../units/quantity.ts';
import { breached, USUAL_BREACH } from '../fields/breach.ts';
import { type Flood, flood, wayOfWater } from '../fields/flood.ts';
import { cellSides, type OpenGround } from '../fields/open-ground.ts';
import { carveQuantile } from './carve-quantile.ts';

/** The way that water takes from the source: every cell of it with its stream level. */
export interface ValleyLine {
  readonly cells: readonly number[];
  /** Level length from the source, m. */
  readonly at: Float64Array;
  /** Level of the stream: never rises downstream. */
  readonly level: Float64Array;
  /** The ground as water finds it, dams cut through, and how it runs. */
  readonly cut: OpenGround;
  readonly flood: Flood;
}

/** Models read valley bottoms high: the stream lies at this quantile of what they say. Source: as `carveQuantile`; 0.3 to 0.5. */
const STREAM_QUANTILE = 0.4;

/** The valley line from a source on, as far as `most` metres or the edge of the heights. */
export function valleyLine(ground: OpenGround, known: Uint8Array, source: number, most: Metres): ValleyLine {
  // Water minds no fence: it runs through areas that a pipe must not cross.
  const free: OpenGround = { ...ground, open: known };
  const cut = breached(free, USUAL_BREACH);
  const run = flood(cut);
  const cells = wayOfWater(cut, run, source, most);
  const { width, height } = cellSides(ground);
  const at = new Float64Array(cells.length);
  for (let i = 1; i < cells.length; i++) {
    const [a, b] = [cells[i - 1] as number, cells[i] as number];
    const columns = (b % ground.columns) - (a % ground.columns);
    const rows = Math.floor(b / ground.columns) - Math.floor(a / ground.columns);
    at[i] = (at[i - 1] as number) + Math.hypot(columns * width, rows * height);
  }
  const level = carveQuantile(
    cells.map((cell) => ground.heights[cell] as number),
    STREAM_QUANTILE,
  );
  return { cells, at, level, cut, flood: run };
}
