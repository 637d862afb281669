import type { Metres, Ratio } from '../../units/quantity.ts';

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
