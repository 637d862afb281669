import { pipeRow, pipeRows, ratingAt } from '../../handbook/pipe-rows.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { Metres, Pascals } from '../../units/quantity.ts';
import { lineWaters } from '../result/grade-lines.ts';
import { headsAlong, levelGrade, pressureOf } from '../result/pressures.ts';
import { siteOf } from '../site/site.ts';
import { solve } from '../spread/solve.ts';
import { solveGravity } from '../spread/solve-gravity.ts';
import type { Ground } from './evaluate.ts';

/** A stretch of a route and the lightest class of its pipe that stands the pressure there. */
export interface ClassStretch {
  readonly from: Metres;
  readonly to: Metres;
  /** Pipe row of the same material and outside diameter; null where none of the handbook's stands it. */
  readonly row: string | null;
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
 * The pressure class that each stretch of a route needs, at rest and running, so that the heavy pipe lies only where it is
 * needed. Null until the route's water is known or where its pipe is not of the handbook.
 */
export function classStretches(plan: Plan, ground: Ground, route: RouteId): readonly ClassStretch[] | null {
  const site = siteOf(plan, ground);
  const system = solve(site, ground.accuracy) ?? solveGravity(site, ground.accuracy);
  const profile = site.profiles.get(route);
  const pipe = plan.pipes.find((p) => p.id === profile?.route.pipe);
  const water = system && lineWaters(system).get(route);
  if (!profile || !water || pipe?.kind !== 'row') return null;
  const classes = classesOf(plan, pipe.row);
  const still = headsAlong(profile, levelGrade(water.still, profile.line.horizontal));
  const running = headsAlong(profile, water.running);
  const stretches: ClassStretch[] = [];
  for (let i = 0; i < still.length; i++) {
    const most = pressureOf(Math.max(0, still[i] ?? 0, running[i] ?? 0), plan.waterTemperature);
    const row = classes.find((c) => c.rating >= most)?.row ?? null;
    extend(stretches, { at: profile.line.at[i] ?? 0, row, most });
  }
  return stretches;
}

/** Lengthens the last stretch when the class stays, else begins another where it ended. */
function extend(
  stretches: ClassStretch[],
  next: { readonly at: Metres; readonly row: string | null; readonly most: Pascals },
): void {
  const last = stretches.at(-1);
  if (last && last.row === next.row) {
    stretches[stretches.length - 1] = { ...last, to: next.at, most: Math.max(last.most, next.most) };
  } else {
    stretches.push({ from: last?.to ?? next.at, to: next.at, row: next.row, most: next.most });
  }
}
