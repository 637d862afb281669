import { type Drawn, drawnBy } from '../model/run-feed.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';

/** What lines from the source to troughs likely take beside the pump, together; null without such a line. */
export function sourceDrawn({ model, layout, spread }: SolvedSystem): Drawn | null {
  if (!model.feeds.some((feed) => feed.draw !== null)) return null;
  const each = model.feeds.map((feed, i) => drawnBy(feed, spread.likely[layout.feed(i, 'feed-flow')] ?? 0));
  return { mean: each.reduce((sum, d) => sum + d.mean, 0), open: each.reduce((sum, d) => sum + d.open, 0) };
}
