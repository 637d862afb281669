import { type PipeRow, pipeRow, pipeRows } from '../../handbook/pipe-rows.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import type { Evaluation } from '../result/evaluation.ts';
import type { Verdict } from '../statistics/estimate.ts';
import { evaluate, type Ground } from './evaluate.ts';

/** What a route would come to in one size of pipe, at the likely values. */
export interface PipeChoice {
  readonly row: PipeRow;
  /** What the line carries: the delivery, the gravity flow, or the most a supply line brings; null when unknown. */
  readonly flow: CubicMetresPerSecond | null;
  readonly friction: Metres | null;
  /** Friction of a delivery line over the lift; null for other lines. */
  readonly frictionShare: Ratio | null;
  /** Verdict on the pressure; null when the pipe has no rating. */
  readonly pressure: Verdict | null;
}

export interface PipeChoices {
  readonly choices: readonly PipeChoice[];
  /** The smallest size of a delivery line that keeps friction within its share of the lift and stands the pressure. */
  readonly suggested: PipeRow | null;
}

/** Series looked through when the route's own pipe belongs to none. */
const USUAL_SERIES = 'pe100-sdr11-32';

/** Sizes of the series that a route's pipe belongs to, small to large. */
function seriesOf(plan: Plan, route: RouteId): readonly PipeRow[] {
  const id = plan.routes.find((r) => r.id === route)?.pipe;
  const pipe = plan.pipes.find((p) => p.id === id);
  const own = pipeRow(pipe?.kind === 'row' ? pipe.row : USUAL_SERIES);
  return pipeRows().filter((row) => row.series === own?.series && row.standard === own.standard);
}

/** The plan with one route laid in another pipe. */
function laidIn(plan: Plan, route: RouteId, row: PipeRow): Plan {
  const id = 'choice';
  return {
    ...plan,
    pipes: [...plan.pipes, { id, kind: 'row', row: row.id }],
    routes: plan.routes.map((r) => (r.id === route ? { ...r, pipe: id } : r)),
  };
}

function flowOf({ lines, pump }: Evaluation, route: RouteId): CubicMetresPerSecond | null {
  const line = lines.find((l) => l.id === route);
  return line?.role === 'supply' ? (pump?.supplyLimit?.likely ?? null) : (line?.flow ?? null);
}

function choiceOf(evaluation: Evaluation, route: RouteId, row: PipeRow): PipeChoice {
  const tank = evaluation.tanks.find((t) => t.line?.route === route);
  const lift = tank?.line?.governingLift.likely ?? 0;
  const friction = tank?.line?.friction ?? null;
  return {
    row,
    flow: flowOf(evaluation, route),
    friction: evaluation.lines.find((l) => l.id === route)?.friction ?? null,
    frictionShare: friction !== null && lift > 0 ? friction / lift : null,
    pressure: evaluation.findings.find((f) => f.code === 'pipe-pressure' && f.about === route)?.verdict ?? null,
  };
}

/** What a route would come to in every size of its series. */
export function pipeChoices(plan: Plan, ground: Ground, route: RouteId): PipeChoices {
  const choices = seriesOf(plan, route).map((row) => choiceOf(evaluate(laidIn(plan, route, row), ground), route, row));
  const share = criterion('friction-share-most').value;
  const fits = (c: PipeChoice) => c.frictionShare !== null && c.frictionShare <= share && c.pressure === 'holds';
  return { choices, suggested: choices.find(fits)?.row ?? null };
}
