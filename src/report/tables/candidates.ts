import type { Evaluation, TankResult } from '../../evaluation/result/evaluation.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Plan, TankPoint } from '../../plan/model/plan.ts';
import { pipeWords } from '../words/pipe-words.ts';

/** What candidates are put in order by. */
export type CandidateOrder = 'verdict' | 'delivery' | 'lift' | 'governing-lift' | 'length' | 'storage' | 'name';

/** A tank of the plan with all that it is compared by; null where it is not known. */
export interface Candidate {
  readonly tank: TankPoint;
  readonly result: TankResult | null;
  readonly length: number | null;
  readonly pipe: string | null;
  /** Whether its delivery line's pipe stands the pressure; null when that is not judged. */
  readonly pressure: Verdict | null;
}

const VERDICT_RANK: Readonly<Record<Verdict, number>> = { holds: 0, measure: 1, fails: 2 };
const STANDING_RANK: Readonly<Record<TankPoint['standing'], number>> = { kept: 0, candidate: 0, 'set-aside': 1 };

/** Smaller comes first; what is unknown comes last. */
const KEYS: Readonly<Record<Exclude<CandidateOrder, 'name'>, (one: Candidate) => readonly (number | null)[]>> = {
  verdict: (one) => [verdictRank(one), negative(deliveryOf(one))],
  delivery: (one) => [negative(deliveryOf(one))],
  lift: (one) => [one.result?.lift.likely ?? null],
  'governing-lift': (one) => [one.result?.line?.governingLift.likely ?? null],
  length: (one) => [one.length],
  storage: (one) => [negative(one.result?.storageDays ?? null)],
};

/** Every tank of a plan in order, the best first by what was asked for; those set aside come after the others. */
export function candidates(plan: Plan, evaluation: Evaluation | null, order: CandidateOrder): readonly Candidate[] {
  const all = plan.points.flatMap((point) => (point.role === 'tank' ? [candidateOf(plan, evaluation, point)] : []));
  return all.toSorted(
    (one, other) =>
      STANDING_RANK[one.tank.standing] - STANDING_RANK[other.tank.standing] ||
      (order === 'name' ? 0 : compared(KEYS[order](one), KEYS[order](other))) ||
      one.tank.name.localeCompare(other.tank.name),
  );
}

function candidateOf(plan: Plan, evaluation: Evaluation | null, tank: TankPoint): Candidate {
  const result = evaluation?.tanks.find(({ id }) => id === tank.id) ?? null;
  const route = plan.routes.find(({ role, to }) => role === 'delivery' && to === tank.id);
  const line = evaluation?.lines.find(({ id }) => id === route?.id);
  const pressure = evaluation?.findings.find(({ code, about }) => code === 'pipe-pressure' && about === route?.id);
  return {
    tank,
    result,
    length: line?.slope ?? null,
    pipe: route === undefined ? null : pipeWords(plan, route.pipe),
    pressure: pressure?.verdict ?? null,
  };
}

const deliveryOf = ({ result }: Candidate): number | null => result?.line?.deliveryPerDay?.likely ?? null;

function verdictRank({ result }: Candidate): number | null {
  return result?.verdict == null ? null : VERDICT_RANK[result.verdict];
}

function negative(value: number | null): number | null {
  return value === null ? null : -value;
}

function compared(one: readonly (number | null)[], other: readonly (number | null)[]): number {
  for (const [index, value] of one.entries()) {
    const step = (value ?? Number.MAX_VALUE) - (other[index] ?? Number.MAX_VALUE);
    if (step !== 0) return step;
  }
  return 0;
}

/** The greatest amount a day that any of them shows, for a scale they share; 0 when nothing is known. */
export function greatestDay(all: readonly Candidate[]): number {
  return Math.max(
    0,
    ...all.flatMap(({ result }) => [result?.line?.deliveryPerDay?.high ?? 0, result?.demandPerDay ?? 0]),
  );
}

/** How many days of need a full tank holds. */
export function storedWords(result: TankResult | null): string {
  const days = result?.storageDays ?? null;
  return days === null ? '–' : `${days.toFixed(1)} ${days.toFixed(1) === '1.0' ? 'day' : 'days'}`;
}
