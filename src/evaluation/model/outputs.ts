/** What a run of the system writes down, in order: once for the system, then for each destination, feed and trough. */

export const SHARED = [
  'fall-at-rest',
  'fall',
  'drive-flow',
  'running-flow',
  'supply-limit',
  'for-pump',
  'left-for-pump',
  'efficiency',
  'freeboard',
  'supply-clearance',
  'running-level',
  'over-inlet',
  'spill',
  'intake-margin',
  'supply-margin',
  'fall-margin',
  'beats',
] as const;

export const DESTINATION = [
  'lift',
  'governing-lift',
  'delivery',
  'delivery-head',
  'friction',
  'friction-share',
  'lift-over-fall',
  'back-pressure-ratio',
  'back-pressure-head',
  'crest-head',
  'level-over-source',
  'reach-margin',
  'push-margin',
  'runs',
  'arrives',
] as const;

export const FEED = ['feed-flow', 'feed-still-head', 'feed-clearance'] as const;

export const TROUGH = ['below-source'] as const;

const FLOWS = ['drive-flow', 'running-flow', 'supply-limit', 'for-pump', 'left-for-pump', 'spill'] as const;

export type SharedOutput = (typeof SHARED)[number];
export type DestinationOutput = (typeof DESTINATION)[number];
export type FeedOutput = (typeof FEED)[number];
export type TroughOutput = (typeof TROUGH)[number];

/** Where each name stands in its list: looked up some million times an answer. */
function placesOf<Name extends string>(names: readonly Name[]): Readonly<Record<Name, number>> {
  return Object.fromEntries(names.map((name, at) => [name, at])) as Record<Name, number>;
}

const SHARED_AT = placesOf(SHARED);
export const DESTINATION_AT = placesOf(DESTINATION);
const FEED_AT = placesOf(FEED);
const TROUGH_AT = placesOf(TROUGH);

interface Counts {
  readonly destinations: number;
  readonly feeds: number;
  readonly troughs: number;
}

/** Where each output of a system stands in the row that a run writes. */
export class OutputLayout {
  readonly destinationStart = SHARED.length;
  readonly feedStart: number;
  readonly troughStart: number;
  readonly length: number;
  private readonly flows: ReadonlySet<number>;

  constructor(counts: Counts) {
    this.feedStart = this.destinationStart + counts.destinations * DESTINATION.length;
    this.troughStart = this.feedStart + counts.feeds * FEED.length;
    this.length = this.troughStart + counts.troughs * TROUGH.length;
    this.flows = new Set([
      ...FLOWS.map((name) => this.shared(name)),
      ...Array.from({ length: counts.destinations }, (_, i) => this.destination(i, 'delivery')),
      ...Array.from({ length: counts.destinations }, (_, i) => this.destination(i, 'arrives')),
      ...Array.from({ length: counts.feeds }, (_, i) => this.feed(i, 'feed-flow')),
    ]);
  }

  shared(name: SharedOutput): number {
    return SHARED_AT[name];
  }

  /** Where the outputs of a destination begin. */
  startOf(index: number): number {
    return this.destinationStart + index * DESTINATION.length;
  }

  destination(index: number, name: DestinationOutput): number {
    return this.startOf(index) + DESTINATION_AT[name];
  }

  feed(index: number, name: FeedOutput): number {
    return this.feedStart + index * FEED.length + FEED_AT[name];
  }

  trough(index: number, name: TroughOutput): number {
    return this.troughStart + index * TROUGH.length + TROUGH_AT[name];
  }

  /** Whether an output is a flow, which cannot be less than nothing. */
  notNegative(output: number): boolean {
    return this.flows.has(output);
  }

  indexOfDestination(output: number): number {
    return Math.floor((output - this.destinationStart) / DESTINATION.length);
  }

  indexOfFeed(output: number): number {
    return Math.floor((output - this.feedStart) / FEED.length);
  }
}
