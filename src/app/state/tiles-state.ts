import { computed, signal } from '@preact/signals';
import type { TileFailure } from '../client/tile-failure.ts';
import { desk } from './alternatives.ts';
import { plan } from './store.ts';

/** The one address that the user switched on, for the plan at hand and its alternatives. */
export const switchedOn = signal<{ readonly desk: string; readonly address: string } | null>(null);

/** The address that is asked for tiles; null while nothing may be asked, as of every plan that was just opened. */
export const shownAddress = computed<string | null>(() => {
  const address = plan.value.mapTiles?.address ?? null;
  const on = switchedOn.value;
  return on !== null && on.address === address && on.desk === desk.value.id ? address : null;
});

/** What came of asking since the tiles were switched on. */
export const tilesCame = signal<{ readonly some: boolean; readonly failure: TileFailure | null }>({
  some: false,
  failure: null,
});
