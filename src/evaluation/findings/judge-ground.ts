import type { Site } from '../site/site.ts';
import { CAREFUL_LEVEL } from '../spread/doubt.ts';
import { type Judged, judge, undecided } from './finding.ts';

/** Places where the DEM says nothing: they are to be walked, whatever the rest says. */
export function judgeGround(site: Site): Judged[] {
  const { plan, heights, profiles } = site;
  const points = plan.points
    .filter((p) => heights.node(p.id) === null)
    .map((p) =>
      judge('point-unknown', plan.confidence, {
        about: p.id,
        spread: undecided(1),
        limit: 0,
        facts: { aim: CAREFUL_LEVEL },
      }),
    );
  const lines = [...profiles.values()]
    .filter((p) => p.void > 0)
    .map((p) => judge('ground-unknown', plan.confidence, { about: p.route.id, spread: undecided(p.void), limit: 0 }));
  return [...points, ...lines, ...judgeFiles(site)];
}

/** Differences that matter and whose two heights come from different files: the fall, and the lift to each destination. */
function judgeFiles({ plan, arrangement, heights }: Site): Judged[] {
  const { source, pump, destinations } = arrangement;
  const pairs = [source, ...destinations.map((d) => d.point)].flatMap((p) =>
    p && pump ? [[p.id, pump.id] as const] : [],
  );
  return pairs.flatMap(([about, other]) => {
    const [a, b] = [heights.file(about), heights.file(other)];
    if (a === null || b === null || a === b) return [];
    const facts = { file: a, other: b, aim: CAREFUL_LEVEL };
    return [judge('across-files', plan.confidence, { about, spread: undecided(1), limit: 0, facts })];
  });
}
