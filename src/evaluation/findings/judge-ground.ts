import { measuredPoint } from '../../plan/check/check-measurements.ts';
import { CONTRADICTS } from '../site/height-net.ts';
import type { Site } from '../site/site.ts';
import { CAREFUL_LEVEL } from '../spread/doubt.ts';
import { type Judged, judge, sure, undecided } from './finding.ts';

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
  return [...points, ...lines, ...judgeReadings(site), ...judgeFiles(site)];
}

/** Level readings against all the rest, the worst of each point; one that its owner looked at and keeps is not asked after. */
function judgeReadings({ plan, heights }: Site): Judged[] {
  const worst = new Map<string, { readonly off: number; readonly facts: Record<string, number | string> }>();
  for (const { index, expected, deviation } of heights.checks()) {
    const taken = plan.measurements[index];
    if (taken === undefined || taken.standing === 'kept') continue;
    const reading = taken.kind === 'height' ? taken.height : taken.rise;
    const off = Math.abs(reading - expected) / deviation;
    const about = measuredPoint(taken);
    const facts = { reading, expected, kind: taken.kind, ...(taken.kind === 'difference' && { from: taken.from }) };
    if (off > (worst.get(about)?.off ?? -1)) worst.set(about, { off, facts });
  }
  return [...worst].map(([about, { off, facts }]) =>
    judge('reading-contradicts', plan.confidence, {
      about,
      spread: off > CONTRADICTS ? undecided(off) : sure(off),
      limit: CONTRADICTS,
      facts,
    }),
  );
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
