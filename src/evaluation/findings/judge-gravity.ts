import { spreadOf } from '../compare.ts';
import { DAY } from '../daily.ts';
import type { Estimate } from '../estimate.ts';
import type { SolvedSystem } from '../system.ts';
import { type Judged, judge } from './finding.ts';

const turned = (e: Estimate): Estimate => ({ low: -e.high, likely: -e.likely, high: -e.low });

/** Gravity lines and troughs: does the water run there, does enough of it, and is a pump needed at all? */
export function judgeGravity(system: SolvedSystem): Judged[] {
  return [...system.model.feeds.flatMap((_, i) => judgeFeed(system, i)), ...judgeNeedless(system)];
}

function judgeFeed({ site, model, layout, spread }: SolvedSystem, index: number): Judged[] {
  const feed = model.feeds[index];
  if (feed === undefined) return [];
  const { confidence } = site.plan;
  const found: Judged[] = [];
  if (site.demandPerDay !== null) {
    const output = layout.feed(index, 'feed-flow');
    const flow = spread.estimate(output);
    const value = { low: flow.low * DAY, likely: flow.likely * DAY, high: flow.high * DAY };
    found.push(
      judge('trough-dry', confidence, { about: feed.route, spread: spreadOf(value), limit: site.demandPerDay, output }),
    );
  }
  if (feed.highPlaces[0]) {
    const output = layout.feed(index, 'feed-clearance');
    found.push(
      judge('gravity-air', confidence, {
        about: feed.route,
        spread: spreadOf(spread.estimate(output)),
        limit: 0,
        output,
        facts: { at: feed.highPlaces[0].at },
      }),
    );
  }
  return found;
}

/** Troughs that get pumped water although the source lies above them. */
function judgeNeedless({ site, model, layout, spread }: SolvedSystem): Judged[] {
  const byItself = new Set(site.arrangement.gravity.filter((g) => g.from.role === 'source').map((g) => g.trough.id));
  const delivered = new Set(model.destinations.map((d) => d.id));
  return model.troughs.flatMap((trough, i) => {
    if (byItself.has(trough.id) || delivered.has(trough.id)) return [];
    const output = layout.trough(i, 'below-source');
    const above = turned(spread.estimate(output));
    return [
      judge('pump-needless', site.plan.confidence, { about: trough.id, spread: spreadOf(above), limit: 0, output }),
    ];
  });
}
