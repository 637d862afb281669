import { criterion } from '../../handbook/practice-criteria.ts';
import { HOUR_S } from '../../units/factor.ts';
import type { CubicMetres } from '../../units/quantity.ts';
import { shareFact } from '../site/herd-shares.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { exactly, lesser, scaled, shifted } from '../statistics/compare.ts';
import { DAY } from '../statistics/estimate.ts';
import { type Judged, judge } from './finding.ts';

/** Gravity lines and troughs: does the water run there, does enough of it, and is a pump needed at all? */
export function judgeGravity(system: SolvedSystem): Judged[] {
  return [...judgeFeeds(system), ...judgeNeedless(system)];
}

/** The gravity lines alone. */
export function judgeFeeds(system: SolvedSystem): Judged[] {
  return system.model.feeds.flatMap((_, i) => judgeFeed(system, i));
}

/** What the tank that feeds a line holds, m³; null for a line from the source. */
function storeOf({ site }: SolvedSystem, route: string): CubicMetres | null {
  const from = site.arrangement.gravity.find((g) => g.route.id === route)?.from;
  return from?.role === 'tank' ? from.volume : null;
}

function judgeFeed(system: SolvedSystem, index: number): Judged[] {
  const { site, model, layout, known } = system;
  const feed = model.feeds[index];
  if (feed === undefined) return [];
  const store = storeOf(system, feed.route);
  const { confidence } = site.plan;
  const found: Judged[] = [];
  if (site.demandPerDay !== null) {
    const share = site.shares.drunkAt(feed.id);
    const output = layout.feed(index, 'feed-flow');
    found.push(
      judge('trough-dry', confidence, {
        about: feed.route,
        spread: scaled(known.spread(output), DAY),
        limit: share * site.demandPerDay,
        output,
        facts: shareFact(share),
      }),
    );
    const trough = site.arrangement.troughs.find((t) => t.id === feed.id);
    found.push(
      judge('trough-first-hour', confidence, {
        about: feed.id,
        // In an hour no more than a full tank holds.
        spread: shifted(
          store !== null
            ? lesser(scaled(known.spread(output), HOUR_S), exactly(store))
            : scaled(known.spread(output), HOUR_S),
          trough?.volume ?? 0,
        ),
        limit: criterion('trough-group-share-least').value * share * site.demandPerDay,
        output,
      }),
    );
  }
  // Air leaves a pipe that falls all the way by its upper end: a bench in it costs flow, but does not lock it.
  if (feed.summits[0]) {
    const output = layout.feed(index, 'feed-clearance');
    found.push(
      judge('gravity-air', confidence, {
        about: feed.route,
        spread: known.spread(output),
        limit: 0,
        output,
        facts: { at: feed.summits[0].at },
      }),
    );
  }
  return found;
}

/** Troughs that get pumped water although the source lies above them. */
function judgeNeedless({ site, model, layout, known }: SolvedSystem): Judged[] {
  const byItself = new Set(site.arrangement.gravity.filter((g) => g.from.role === 'source').map((g) => g.trough.id));
  const delivered = new Set(model.destinations.map((d) => d.id));
  return model.troughs.flatMap((trough, i) => {
    if (byItself.has(trough.id) || delivered.has(trough.id)) return [];
    const output = layout.trough(i, 'below-source');
    return [
      judge('pump-needless', site.plan.confidence, {
        about: trough.id,
        spread: scaled(known.spread(output), -1),
        limit: 0,
        output,
      }),
    ];
  });
}
