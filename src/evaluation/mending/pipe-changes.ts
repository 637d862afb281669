import { type PipeRow, pipeRow, pipeRows, ratingAt } from '../../handbook/pipe-rows.ts';
import type { Plan, RouteId } from '../../plan/model/plan.ts';
import type { Metres, Pascals } from '../../units/quantity.ts';
import { laidIn, steelOf } from '../evaluate/pump-catalogue.ts';
import type { Finding } from '../result/evaluation.ts';
import { pipeOfPlan } from '../site/pipe-of-plan.ts';
import { type Change, change } from './change.ts';

/** Series looked through when a route's own pipe belongs to none. */
const USUAL_ROW = 'pe100-sdr11-32';

/** Sizes tried beyond the first that could be enough. */
const TRIES = 3;

function pipeOf(plan: Plan, id: RouteId) {
  const route = plan.routes.find((r) => r.id === id);
  const pipe = plan.pipes.find((p) => p.id === route?.pipe);
  return pipe && { pipe, of: pipeOfPlan(pipe, plan.waterTemperature) };
}

/** Rows of the series that a route's pipe belongs to. */
function series(plan: Plan, id: RouteId): readonly PipeRow[] {
  const found = pipeOf(plan, id);
  const own = pipeRow(found?.pipe.kind === 'row' ? found.pipe.row : USUAL_ROW);
  return pipeRows().filter((row) => row.series === own?.series && row.standard === own.standard);
}

/** Wider pipes of the same series, the narrowest first. */
export function widerPipes(plan: Plan, id: RouteId, least: Metres): Change[] {
  const bore = pipeOf(plan, id)?.of.bore ?? 0;
  return series(plan, id)
    .filter((row) => row.bore > bore * 1.01 && row.bore >= least * 0.98)
    .slice(0, TRIES)
    .map((row) => change('wider-pipe', id, { row: row.label, bore: row.bore }, laidIn(plan, id, row.id)));
}

/** Pipes of the same material and about the same bore that stand a pressure, the lightest first. */
export function strongerPipes(plan: Plan, id: RouteId, rating: Pascals): Change[] {
  const found = pipeOf(plan, id);
  if (!found) return [];
  const { bore, material } = found.of;
  const suits = (row: PipeRow) =>
    row.material === material &&
    row.bore > bore * 0.9 &&
    row.bore < bore * 1.35 &&
    (ratingAt(row, plan.waterTemperature) ?? 0) >= rating;
  return pipeRows()
    .filter(suits)
    .toSorted((a, b) => a.wall - b.wall || a.bore - b.bore)
    .slice(0, TRIES)
    .map((row) => change('stronger-pipe', id, { row: row.label, rating }, laidIn(plan, id, row.id)));
}

/** The drive pipe in steel, of its own bore or of the pump's. */
export function steelDrive(plan: Plan, id: RouteId, kind: 'steel-drive' | 'fitting-drive', bore: Metres): Change[] {
  const row = steelOf(bore);
  return row === undefined ? [] : [change(kind, id, { row: row.label, bore: row.bore }, laidIn(plan, id, row.id))];
}

export const boreOf = (plan: Plan, id: RouteId): Metres => pipeOf(plan, id)?.of.bore ?? 0;

/** A number that a finding carries; 0 where it has none. */
export const fact = (finding: Finding, name: string): number => {
  const value = finding.facts[name];
  return typeof value === 'number' ? value : 0;
};
