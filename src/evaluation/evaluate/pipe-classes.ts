import { pipeRow, pipeRows, ratingAt } from '../../handbook/pipe-rows.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { Metres, Pascals } from '../../units/quantity.ts';
import { around, widestReach } from '../findings/judge-pressure.ts';
import { lineWaters } from '../result/grade-lines.ts';
import { gradesOf } from '../result/line-results.ts';
import { headsAlong, pressureOf } from '../result/pressures.ts';
import { siteOf } from '../site/site.ts';
import { solve } from '../spread/solve.ts';
import { solveGravity } from '../spread/solve-gravity.ts';
import { compare } from '../statistics/compare.ts';
import type { Ground } from './evaluate.ts';

/** A stretch of a route and the lightest class of its pipe that stands the pressure there. */
export interface ClassStretch {
  readonly from: Metres;
  readonly to: Metres;
  /** Pipe row of the same material and outside diameter; null where none of the handbook's stands it. */
  readonly row: string | null;
  /** Whether the material has no rating at all at the water's temperature. */
  readonly unrated: boolean;
  /** The pressure that rules, at its 90th percentile or whatever the plan's confidence asks for. */
  readonly most: Pascals;
}

interface PipeClass {
  readonly row: string;
  readonly rating: Pascals;
}

/** Classes of the same standard, material and outside diameter as a row, light to heavy, at the water's temperature. */
function classesOf(plan: Plan, row: string): readonly PipeClass[] {
  const own = pipeRow(row);
  if (own === null) return [];
  return pipeRows()
    .filter(
      (r) => r.standard === own.standard && r.material === own.material && r.outsideDiameter === own.outsideDiameter,
    )
    .flatMap((r) => {
      const rating = ratingAt(r, plan.waterTemperature);
      return rating === null ? [] : [{ row: r.id, rating }];
    })
    .toSorted((a, b) => a.rating - b.rating);
}

/**
 * The pressure class that each stretch of a route needs, so that the heavy pipe lies only where it is needed. What rules is the
 * highest of the pressures at rest, running (a drive pipe feels the delivery head at every beat) and with the delivery shut, which
 * a relief valve in the plan limits; each with its doubt, so that a class that is told holds by the finding's own comparison.
 * Between two samples the stronger class of both lies. Null until the route's water is known or where its pipe is not of the
 * handbook.
 */
export function classStretches(plan: Plan, ground: Ground, route: RouteId): readonly ClassStretch[] | null {
  const site = siteOf(plan, ground);
  const system = solve(site, ground.accuracy) ?? solveGravity(site, ground.accuracy);
  const profile = site.profiles.get(route);
  const pipe = plan.pipes.find((p) => p.id === profile?.route.pipe);
  const water = system && lineWaters(system).get(route);
  if (!system || !profile || !water || pipe?.kind !== 'row') return null;
  const classes = classesOf(plan, pipe.row);
  const unrated = classes.length === 0;
  const reach = widestReach(system, { id: route, role: profile.route.role });
  const heads = gradesOf(system, profile, water).map((grade) => headsAlong(profile, grade));
  const stands = (likely: Pascals, { rating }: PipeClass) =>
    compare(around(likely, reach), { limit: rating, side: 'at-most', confidence: plan.confidence }).verdict === 'holds';
  const samples = Array.from(profile.line.at, (at, i) => {
    const likely = pressureOf(Math.max(0, ...heads.map((h) => h[i] ?? 0)), plan.waterTemperature);
    const rank = classes.findIndex((c) => stands(likely, c));
    return { at, rank: rank < 0 ? classes.length : rank, most: likely + reach.above };
  });
  const stretches: ClassStretch[] = [];
  samples.forEach((end, i) => {
    const start = samples[i - 1];
    if (start === undefined) return;
    const row = classes[Math.max(start.rank, end.rank)]?.row ?? null;
    extend(stretches, { from: start.at, to: end.at, row, unrated, most: Math.max(start.most, end.most) });
  });
  return stretches;
}

/** Lengthens the last stretch when the class stays, else begins another where it ended. */
function extend(stretches: ClassStretch[], next: ClassStretch): void {
  const last = stretches.at(-1);
  if (last && last.row === next.row) {
    stretches[stretches.length - 1] = { ...last, to: next.to, most: Math.max(last.most, next.most) };
  } else stretches.push(next);
}
