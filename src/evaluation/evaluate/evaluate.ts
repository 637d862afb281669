import type { Plan, PointId, RouteId } from '../../plan/model/plan.ts';
import type { GroundLine, GroundPoint, HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Ratio } from '../../units/quantity.ts';
import { findingsOf } from '../findings/findings.ts';
import { toldOnce } from '../findings/implied-findings.ts';
import { withRemedies } from '../findings/remedy-facts.ts';
import type { Evaluation, Finding, TankResult, TankYear } from '../result/evaluation.ts';
import { lineResults } from '../result/line-results.ts';
import { deliveryResult, pointResults, pumpResult, sourceResult, troughResults } from '../result/results.ts';
import { standpipeResult } from '../result/standpipe-result.ts';
import { destinationVerdict, gravityVerdict, overallVerdict } from '../result/verdicts.ts';
import { type Site, siteOf } from '../site/site.ts';
import { ANSWER_DRAWS, type DrawOrder } from '../spread/samples.ts';
import { drawn, solve } from '../spread/solve.ts';
import { solveGravity } from '../spread/solve-gravity.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { answerOf } from './answer.ts';
import { measureFirst } from './measure-first.ts';
import { judgeYear, yearInDraws } from './year.ts';

/** The ground of a plan as data: what the DEM says under its points and along its routes. */
export interface Ground {
  readonly points: ReadonlyMap<PointId, GroundPoint>;
  readonly lines: ReadonlyMap<RouteId, GroundLine>;
  readonly accuracy: HeightAccuracy;
}

/**
 * Everything that can be said of a plan on its ground. Pure and synchronous: no file, no clock, no chance.
 *
 * A plan need not be finished: whatever is not drawn yet is null in the results, and the rest is judged. Spreads are to
 * first order, quick enough to follow a point while it is dragged.
 */
export function evaluate(plan: Plan, ground: Ground): Evaluation {
  const site = siteOf(plan, ground);
  const system = solve(site, ground.accuracy);
  return evaluationOf(site, ground.accuracy, { system, year: finished(yearInDraws(system, null)) });
}

/**
 * The same, with spreads and chances from quasi-random draws: 10th, 50th and 90th percentile as they are, however bent the
 * way from cause to effect. Gives the number of draws done at every stop; whoever drives it may let others have their turn
 * there, or leave it.
 */
export function* evaluateInDraws(plan: Plan, ground: Ground, order: DrawOrder): Generator<number, Evaluation> {
  const site = siteOf(plan, ground);
  const system = solve(site, ground.accuracy);
  const year = yield* yearInDraws(system, order);
  return evaluationOf(site, ground.accuracy, { system: system && (yield* drawn(system, order)), year });
}

/** The same without stops. */
export function evaluateDrawn(plan: Plan, ground: Ground, order: DrawOrder): Evaluation {
  return finished(evaluateInDraws(plan, ground, order));
}

/** What steps come to without stops. */
function finished<T>(steps: Generator<number, T>): T {
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
}

/** The answer that counts, once nothing is being dragged: with spreads from draws that are always the same. */
export function evaluateAtRest(plan: Plan, ground: Ground): Evaluation {
  return evaluateDrawn(plan, ground, ANSWER_DRAWS);
}

/** Tanks that are set aside, and the lines that only they have: nothing is said of them and nothing measured for them. */
function setAside({ plan }: Site): ReadonlySet<string> {
  const tanks = new Set(plan.points.flatMap((p) => (p.role === 'tank' && p.standing === 'set-aside' ? [p.id] : [])));
  const lines = plan.routes.filter((r) => tanks.has(r.to) || tanks.has(r.from)).map(({ id }) => id);
  return new Set([...tanks, ...lines]);
}

const BEARS: readonly Finding['bears'][] = ['running', 'safety', 'yield', 'practice'];
const OPEN: readonly Finding['verdict'][] = ['fails', 'measure', 'holds'];

/** What stops it before what hurts people and pipes, before what costs water, before good practice; what holds comes last. */
function ordered(findings: readonly Finding[]): readonly Finding[] {
  const held = ({ verdict }: Finding) => Number(verdict === 'holds');
  return findings.toSorted(
    (a, b) =>
      held(a) - held(b) ||
      BEARS.indexOf(a.bears) - BEARS.indexOf(b.bears) ||
      OPEN.indexOf(a.verdict) - OPEN.indexOf(b.verdict) ||
      a.chance - b.chance,
  );
}

/** Without a pump the gravity lines are still reckoned; their spreads are to first order. */
function evaluationOf(
  site: Site,
  accuracy: HeightAccuracy,
  { system, year }: { readonly system: SolvedSystem | null; readonly year: readonly TankYear[] | null },
): Evaluation {
  const gravity = system ?? solveGravity(site, accuracy);
  const lines = lineResults(site, gravity);
  const standpipe = system && standpipeResult(system);
  const judged = [...findingsOf(site, system, { lines, standpipe, gravity }), ...judgeYear(system, year ?? [])];
  // Verdicts rest on everything judged; a reader is told each thing once.
  const findings = judged.map((j) => j.finding);
  const told = withRemedies(gravity, toldOnce(judged));
  const tanks = tankResults(site, system, findings);
  const troughs = troughResults(site, gravity);
  const aside = setAside(site);
  const open = told.filter((j) => !aside.has(j.finding.about));
  const shown = ordered(open.map((j) => j.finding));
  const first = measureFirst(system, open);
  return {
    answer: answerOf({ site, system, gravity, findings, told: shown, tanks, troughs, measureFirst: first }),
    points: pointResults(site),
    lines,
    source: sourceResult(site, system),
    standpipe,
    pump: system && pumpResult(system),
    tanks,
    troughs,
    years: year,
    findings: shown,
    measureFirst: first,
    verdict:
      system === null && gravity !== null
        ? gravityVerdict(site, findings)
        : overallVerdict(site, { findings, tanks, solved: system !== null }),
  };
}

/** One row for every place the pump delivers to, drawn or not, as far as it can be known. */
function tankResults(site: Site, system: SolvedSystem | null, findings: readonly Finding[]): TankResult[] {
  if (system === null) return [];
  const volumes = new Map(site.arrangement.destinations.map((d) => [d.point.id, d.point.volume]));
  return system.model.destinations.map((destination, index) => {
    const line = deliveryResult(system, index);
    const volume = volumes.get(destination.id) ?? 0;
    const need = (share: Ratio) => (site.demandPerDay === null ? null : site.demandPerDay * share);
    const drunk = need(site.shares.drunkFrom(destination.id));
    return {
      id: destination.id,
      lift: system.known.estimate(system.layout.destination(index, 'lift')),
      liftBias: site.heights.smoothing(destination.id) - site.heights.smoothing(site.arrangement.pump?.id ?? ''),
      line,
      demandPerDay: need(site.shares.brought(destination.id)),
      storageDays: drunk === null || drunk <= 0 ? null : volume / drunk,
      verdict: line && destinationVerdict(site, findings, destination.id),
    };
  });
}
