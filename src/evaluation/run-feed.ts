import type { CubicMetresPerSecond, Metres } from '../units/quantity.ts';
import { clearance, flowPast, type LineState } from './run-line.ts';
import type { FeedModel } from './system-model.ts';

/** What a gravity line comes to. */
export interface FeedRun {
  readonly flow: CubicMetresPerSecond;
  /** Head at the closed float valve. */
  readonly still: Metres;
  /** Water line above the high places while the float valve is open. */
  readonly clearance: Metres;
}

/** Flow and heads of a gravity line with its float valve open, from the level of what feeds it. */
export function runFeed(feed: FeedModel, line: LineState): FeedRun {
  const level = (line.ground[feed.from] ?? 0) + feed.fromHeight;
  const still = level - (line.ground[feed.node] ?? 0) - feed.valveHeight;
  const free = Math.min(feed.valveFlow, feed.loss.flowFor(Math.max(0, still) / line.lossFactor));
  return {
    flow: Math.min(free, flowPast(level, feed.highPlaces, line)),
    still,
    clearance: clearance(level, free, feed.highPlaces, line),
  };
}
