import type { Metres, Ratio } from '../../units/quantity.ts';
import { breached, USUAL_BREACH } from '../fields/breach.ts';
import { type Flood, flood, wayOfWater } from '../fields/flood.ts';
import { cellSides, type OpenGround } from '../fields/open-ground.ts';

/**
 * Heights along a stream made to fall: at every place the given quantile of what the model says of the stretch that must lie
 * level there, so that it never rises downstream.
 *
 * Minimises Σ ρ_τ(zᵢ − xᵢ) under x₁ ≥ x₂ ≥ …, ρ_τ(u) = u (τ − [u < 0]); pool-adjacent-violators with the τ-quantile of each
 * pool. Models read valley bottoms high, so τ lies below a half.
 * Sources: W. Schwanghart, D. Scherler, Bumps in river profiles, Earth Surface Dynamics 5, 2017, 821–839,
 * doi 10.5194/esurf-5-821-2017 (abstract); pooling: from memory.
 */
export function carveQuantile(heights: ArrayLike<Metres>, tau: Ratio): Float64Array {
  const pools: { readonly sorted: number[]; readonly level: Metres }[] = [];
  for (let i = 0; i < heights.length; i++) {
    let pool = poolOf([heights[i] as number], tau);
    for (let before = pools.at(-1); before && before.level < pool.level; before = pools.at(-1)) {
      pools.pop();
      pool = poolOf(merged(before.sorted, pool.sorted), tau);
    }
    pools.push(pool);
  }
  const carved = new Float64Array(heights.length);
  let at = 0;
  for (const { sorted, level } of pools) {
    carved.fill(level, at, at + sorted.length);
    at += sorted.length;
  }
  return carved;
}

const poolOf = (sorted: number[], tau: Ratio) => ({ sorted, level: quantile(sorted, tau) });

/** The lower of the values at which the loss is least. */
function quantile(sorted: readonly number[], tau: Ratio): number {
  const rank = Math.max(0, Math.ceil(tau * sorted.length - 1e-9) - 1);
  return sorted[Math.min(rank, sorted.length - 1)] as number;
}

function merged(a: readonly number[], b: readonly number[]): number[] {
  const out: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length)
    out.push((a[i] as number) <= (b[j] as number) ? (a[i++] as number) : (b[j++] as number));
  while (i < a.length) out.push(a[i++] as number);
  while (j < b.length) out.push(b[j++] as number);
  return out;
}

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
