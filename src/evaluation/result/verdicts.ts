import type { PlanRoute } from '../../plan/model/plan.ts';
import type { Site } from '../site/site.ts';
import { best, worst } from '../statistics/compare.ts';
import type { Verdict } from '../statistics/estimate.ts';
import type { Finding, TankResult } from './evaluation.ts';

/** Findings of good practice are told, but do not decide whether a system works. */
const decides = (finding: Finding) => finding.bears !== 'practice';

/** Ids that stand for one destination: the place itself and the delivery line that leads there. */
function idsOf(site: Site, destination: string): readonly string[] {
  const route = site.plan.routes.find((r: PlanRoute) => r.role === 'delivery' && r.to === destination);
  return route ? [destination, route.id] : [destination];
}

/** Verdict on what all destinations share: source, supply, standpipe, drive pipe and pump. */
export function sharedVerdict(site: Site, findings: readonly Finding[]): Verdict {
  const { source, standpipe, pump, supply, drive } = site.arrangement;
  const shared = new Set([source?.id, standpipe?.id, pump?.id, supply?.id, drive?.id]);
  return worst(findings.filter((f) => decides(f) && shared.has(f.about)).map((f) => f.verdict));
}

/** Verdict on one destination: the shared part and its own delivery line. */
export function destinationVerdict(site: Site, findings: readonly Finding[], destination: string): Verdict {
  const own = idsOf(site, destination);
  return worst([
    sharedVerdict(site, findings),
    ...findings.filter((f) => decides(f) && own.includes(f.about)).map((f) => f.verdict),
  ]);
}

/** Troughs that the pump fills by a line of their own. */
function pumpedTroughs(site: Site, findings: readonly Finding[]): Verdict[] {
  return site.arrangement.destinations.flatMap(({ point, route }) =>
    point.role === 'trough' && route ? [destinationVerdict(site, findings, point.id)] : [],
  );
}

/**
 * Verdict on the plan: that of the kept tank, else of the best place that a line leads to. Before there is one, what is drawn
 * so far can only fail.
 */
export function overallVerdict(
  site: Site,
  known: { readonly findings: readonly Finding[]; readonly tanks: readonly TankResult[]; readonly solved: boolean },
): Verdict | null {
  if (!known.solved) return null;
  const standing = new Map(site.plan.points.map((p) => [p.id, p.role === 'tank' ? p.standing : 'candidate']));
  const judged = known.tanks.flatMap((t) =>
    t.verdict === null ? [] : [{ verdict: t.verdict, standing: standing.get(t.id) }],
  );
  const kept = judged.filter((t) => t.standing === 'kept').map((t) => t.verdict);
  if (kept.length > 0) return worst(kept);
  const candidates = judged.filter((t) => t.standing !== 'set-aside').map((t) => t.verdict);
  const reached = best([...candidates, ...pumpedTroughs(site, known.findings)]);
  return reached ?? (sharedVerdict(site, known.findings) === 'fails' ? 'fails' : null);
}

/** Verdict on gravity lines that no pump feeds; null until the herd says how much is enough. */
export function gravityVerdict(site: Site, findings: readonly Finding[]): Verdict | null {
  return site.demandPerDay === null ? null : worst(findings.filter(decides).map((f) => f.verdict));
}
