import type { HeightField } from './height-field.ts';
import type { WayPlace } from './pull-straight.ts';
import type { RouteRule } from './route-rule.ts';
import { type RouteEnds, RouteSearch } from './route-search.ts';

/** What a search may tell and be told while it goes on. */
export interface RouteJob {
  readonly signal?: AbortSignal;
  /** Told how many ways were followed since it was last told; how many there will be is not known. */
  readonly onProgress?: (followed: number) => void;
  /** Waits a turn, so that word of a stop can arrive. */
  readonly pause?: () => Promise<void>;
}

/** Ways followed between two looks at the signal: some 20 ms. */
const AT_A_TIME = 20_000;

/** A way as the search went, in stairs from cell to cell; or why there is none. */
export type SearchEnd =
  | { readonly state: 'found'; readonly way: readonly WayPlace[] }
  | { readonly state: 'none' }
  | { readonly state: 'full' };

/** What a search looks through. */
export interface SearchGround {
  readonly field: HeightField;
  readonly ends: RouteEnds;
  /** 16 are quicker, 32 find more of the ways that just fall. */
  readonly neighbours: 16 | 32;
}

/** Runs a search to its end in short stretches. */
export async function runSearch(ground: SearchGround, rule: RouteRule, job: RouteJob = {}): Promise<SearchEnd> {
  const search = new RouteSearch(ground.field, ground.ends, rule, ground.neighbours);
  let told = 0;
  for (;;) {
    job.signal?.throwIfAborted();
    const state = search.go(AT_A_TIME);
    job.onProgress?.(search.expanded - told);
    told = search.expanded;
    if (state === 'found') {
      return { state, way: search.way() };
    }
    if (state === 'none') return { state };
    if (state === 'full') return { state };
    await job.pause?.();
  }
}
