import { type PipeRow, pipeRow, pipeRows } from '../../handbook/pipe-rows.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import type { Plan, PlanRoute, RouteId } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import type { Evaluation, Finding } from '../result/evaluation.ts';
import type { Verdict } from '../statistics/estimate.ts';
import { evaluate, type Ground } from './evaluate.ts';
import { steelOf } from './pump-catalogue.ts';

/** What a route would come to in one size of pipe, at the likely values. */
export interface PipeChoice {
  readonly row: PipeRow;
  /** What the line carries: the delivery, the gravity flow, or the most a supply line brings; null when unknown. */
  readonly flow: CubicMetresPerSecond | null;
  /** Null where a gravity line runs free. */
  readonly friction: Metres | null;
  /** Friction of a delivery line over the lift; null for other lines. */
  readonly frictionShare: Ratio | null;
  /** Verdict on the pressure; null when the pipe has no rating. */
  readonly pressure: Verdict | null;
}

export interface PipeChoices {
  readonly choices: readonly PipeChoice[];
  /** The smallest size that is enough: nothing that the size decides stands against it. Null where none is. */
  readonly suggested: PipeRow | null;
  /** Whether sizes of another material are looked through than the line's own, which does not suit a drive pipe. */
  readonly otherMaterial: boolean;
}

/** Series looked through when the route's own pipe belongs to none, and steel of about a bore for drive pipes of a soft one. */
const USUAL_SERIES = 'pe100-sdr11-32';
const USUAL_DRIVE_BORE: Metres = 0.05;

/** Sizes of the series that a route's pipe belongs to, small to large; a drive pipe of plastic is looked for among steel ones. */
function seriesOf(plan: Plan, route: PlanRoute): { rows: readonly PipeRow[]; otherMaterial: boolean } {
  const pipe = plan.pipes.find((p) => p.id === route.pipe);
  const laid = pipe?.kind === 'row' ? pipeRow(pipe.row) : undefined;
  const usual = route.role === 'drive' ? steelOf(USUAL_DRIVE_BORE) : pipeRow(USUAL_SERIES);
  const soft = route.role === 'drive' && laid?.surface === 'smooth-plastic';
  const own = laid === undefined || soft ? usual : laid;
  const rows = pipeRows().filter((row) => row.series === own?.series && row.standard === own.standard);
  return { rows, otherMaterial: soft };
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

/** Whether a gravity line runs free: its friction is then its whole fall in every size, and says nothing of one. */
function wholeFall({ lines, troughs }: Evaluation, route: RouteId): boolean {
  const line = lines.find((l) => l.id === route);
  if (line?.role !== 'gravity' || line.friction === null) return false;
  const { friction } = line;
  return troughs.some(({ stillHead }) => stillHead !== null && Math.abs(stillHead.likely - friction) < 1e-3);
}

function choiceOf(evaluation: Evaluation, route: RouteId, row: PipeRow): PipeChoice {
  const tank = evaluation.tanks.find((t) => t.line?.route === route);
  const lift = tank?.line?.governingLift.likely ?? 0;
  const friction = tank?.line?.friction ?? null;
  return {
    row,
    flow: flowOf(evaluation, route),
    friction: wholeFall(evaluation, route) ? null : (evaluation.lines.find((l) => l.id === route)?.friction ?? null),
    frictionShare: friction !== null && lift > 0 ? friction / lift : null,
    pressure: evaluation.findings.find((f) => f.code === 'pipe-pressure' && f.about === route)?.verdict ?? null,
  };
}

/** A route in one size: what it comes to, and all that is said about it and about what it ends at. */
interface Tried {
  readonly choice: PipeChoice;
  readonly open: readonly Finding[];
}

function tried(
  plan: Plan,
  ground: Ground,
  { route, row }: { readonly route: PlanRoute; readonly row: PipeRow },
): Tried {
  const evaluation = evaluate(laidIn(plan, route.id, row), ground);
  const ends = route.role === 'drive' ? [route.id] : [route.id, route.to];
  const open = evaluation.findings.filter(({ about, verdict }) => ends.includes(about) && verdict !== 'holds');
  return { choice: choiceOf(evaluation, route.id, row), open };
}

const keyOf = ({ code, about }: Finding) => `${code} ${about}`;

/** Findings whose value no size changes: they say nothing of the size. */
function sizeless(all: readonly Tried[]): ReadonlySet<string> {
  const values = new Map<string, Set<string>>();
  for (const { open } of all) {
    for (const finding of open) {
      const known = values.get(keyOf(finding)) ?? new Set();
      values.set(keyOf(finding), known.add((finding.value?.likely ?? 0).toPrecision(6)));
    }
  }
  const everywhere = (key: string) => all.every(({ open }) => open.some((finding) => keyOf(finding) === key));
  return new Set([...values].filter(([key, found]) => found.size === 1 && everywhere(key)).map(([key]) => key));
}

/**
 * What a route would come to in every size of its series, and the smallest that is enough: a delivery line within its share of
 * friction, a gravity line that fills its trough, a supply line that brings what the pump takes, a drive pipe that suits pump and
 * fall; each standing its pressure.
 */
export function pipeChoices(plan: Plan, ground: Ground, route: RouteId): PipeChoices {
  const laid = plan.routes.find((r) => r.id === route);
  if (laid === undefined) return { choices: [], suggested: null, otherMaterial: false };
  const { rows, otherMaterial } = seriesOf(plan, laid);
  const all = rows.map((row) => tried(plan, ground, { route: laid, row }));
  const aside = sizeless(all);
  const share = criterion('friction-share-most').value;
  const fits = ({ choice, open }: Tried) => {
    if (laid.role === 'delivery')
      return choice.frictionShare !== null && choice.frictionShare <= share && choice.pressure === 'holds';
    return choice.flow !== null && open.every((finding) => aside.has(keyOf(finding)));
  };
  return { choices: all.map(({ choice }) => choice), suggested: all.find(fits)?.choice.row ?? null, otherMaterial };
}
