import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { clearance, flowPast, type LineState } from './run-line.ts';
import type { FeedModel } from './system-model.ts';

/** What a gravity line comes to. */
export interface FeedRun {
  readonly flow: CubicMetresPerSecond;
  /** Head at the closed float valve. */
  readonly still: Metres;
  /** Water line above the summits while the float valve is open. */
  readonly clearance: Metres;
}

/**
 * Flow and heads of a gravity line with its float valve open, from the level of what feeds it. A line from the source brings no
 * more than may be taken there.
 */
export function runFeed(feed: FeedModel, line: LineState, available: CubicMetresPerSecond): FeedRun {
  const level = valueAt(line.ground, feed.from) + feed.fromHeight;
  const still = level - valueAt(line.ground, feed.node) - feed.valveHeight;
  const free = Math.min(feed.valveFlow, feed.loss.flowFor(Math.max(0, still) / line.lossFactor));
  const most = feed.draw === null ? Number.MAX_VALUE : available;
  return {
    flow: Math.min(free, most, flowPast(level, feed.highPlaces, line)),
    still,
    clearance: clearance(level, free, feed.summits, line),
  };
}

/** What lines to troughs take from the source beside the pump. */
export interface Drawn {
  /** In the mean of a day: a float valve is shut while the trough is full, so no more than is drunk there. */
  readonly mean: CubicMetresPerSecond;
  /** While its valve is open. */
  readonly open: CubicMetresPerSecond;
}

const NOTHING: Drawn = { mean: 0, open: 0 };

/** What one line takes at the flow it brings with its valve open. */
export function drawnBy({ draw }: FeedModel, flow: CubicMetresPerSecond): Drawn {
  return draw === null ? NOTHING : { mean: Math.min(flow, draw.mean), open: draw.opens ? flow : 0 };
}
