import { herdNeed, herdRow } from '../../handbook/livestock-needs.ts';
import { storageBalance } from '../../hydraulics/storage-balance.ts';
import type { HerdGroup, MonthOfYear, Plan, PointId } from '../../plan/model/plan.ts';
import type { CubicMetres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { sideBySide } from '../model/pump-behaviour.ts';
import { runSystem } from '../model/run-system.ts';
import type { SystemModel } from '../model/system-model.ts';
import { siteOf } from '../site/site.ts';
import { sourceFlow } from '../site/source-yield.ts';
import { baseState } from '../spread/first-order.ts';
import { solve } from '../spread/solve.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { DAY } from '../statistics/estimate.ts';
import type { Ground } from './evaluate.ts';

/** One month of a tank that starts the year full. Volumes in m³. */
export interface TankMonth {
  /** What arrives and what the herd wants, a day. */
  readonly deliveryPerDay: CubicMetres;
  readonly needPerDay: CubicMetres;
  readonly overflow: CubicMetres;
  readonly shortfall: CubicMetres;
  /** Days on which the herd gets less than it wants. */
  readonly daysShort: number;
  /** Least water in the tank at the end of a day. */
  readonly lowest: CubicMetres;
}

export interface TankYear {
  readonly id: PointId;
  readonly months: readonly TankMonth[];
}

const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/** What one head of a group wants a day in some weather, m³: the upper figure of the handbook's range. */
function needIn(group: HerdGroup, month: MonthOfYear): CubicMetres {
  if (group.kind === 'own') return group.needPerDay;
  const row = herdRow(group.row);
  if (row === null) throw new Error(`found herd row ${group.row}, expected one of the handbook`);
  return herdNeed(row, month).high;
}

/** What the herd wants a day in a month, m³. */
export function needPerDay(plan: Plan, month: MonthOfYear): CubicMetres {
  return plan.herd.reduce((sum, group) => sum + group.count * needIn(group, month), 0);
}

/** The model when the herd drinks what it wants in a month: lines from the source to troughs take their part of that. */
function drinking({ model, site }: SolvedSystem, need: CubicMetres): SystemModel {
  const peak = site.demandPerDay ?? 0;
  if (peak <= 0) return model;
  const feeds = model.feeds.map((f) => ({ ...f, draw: f.draw && { ...f.draw, mean: (f.draw.mean * need) / peak } }));
  return { ...model, feeds };
}

/**
 * Delivery a day to every destination with a line when the source gives a share of what was read, m³; else null. Of several
 * pumps side by side as many run as the water feeds.
 */
function deliveries(
  system: SolvedSystem,
  plan: Plan,
  month: { readonly share: number; readonly need: CubicMetres },
): readonly (CubicMetres | null)[] {
  const { layout } = system;
  const likely = drinking(system, month.need);
  const read = sourceFlow(plan.yieldReadings)?.flow ?? 0;
  const state = { ...baseState(likely), available: read * month.share * (1 - (plan.leftInStream ?? 0)) };
  const out = new Float64Array(layout.length);
  const runWith = (pumps: number) => {
    runSystem({ ...likely, pumps, behaviour: sideBySide(likely.each, pumps) }, layout, state, out);
    return valueAt(out, layout.shared('for-pump')) >= pumps * likely.each.intakeLeast;
  };
  let pumps = likely.pumps;
  while (pumps > 0 && !runWith(pumps)) pumps -= 1;
  return likely.destinations.map((d, i) => {
    if (d.loss === null) return null;
    return pumps > 0 ? valueAt(out, layout.destination(i, 'delivery')) * DAY : 0;
  });
}

/**
 * A year of days at every tank, from January and a full tank: what arrives, what the herd wants, what runs over and what is
 * missing. The likely figures; a source below what the pump needs delivers nothing. Null until the user has given the twelve
 * months, a herd and a reading of the source.
 */
export function yearOf(plan: Plan, ground: Ground): readonly TankYear[] | null {
  if (plan.year.length !== DAYS.length || plan.herd.length === 0 || plan.yieldReadings.length === 0) return null;
  const site = siteOf(plan, ground);
  const system = solve(site, ground.accuracy);
  if (system === null) return null;
  const months = plan.year.map((month) => {
    const need = needPerDay(plan, month);
    return { need, deliveries: deliveries(system, plan, { share: month.sourceShare ?? 1, need }) };
  });
  const capacity = new Map(site.arrangement.destinations.map((d) => [d.point.id, d.point.volume]));
  return system.model.destinations.flatMap((destination, i) => {
    if (destination.loss === null) return [];
    const share = site.shares.brought(destination.id);
    const daily = months.map((m) => ({ needPerDay: share * m.need, deliveryPerDay: m.deliveries[i] ?? 0 }));
    return [{ id: destination.id, months: tankYear(daily, capacity.get(destination.id) ?? 0) }];
  });
}

function tankYear(
  daily: readonly Pick<TankMonth, 'needPerDay' | 'deliveryPerDay'>[],
  capacity: CubicMetres,
): readonly TankMonth[] {
  const steps = daily.flatMap((month, m) =>
    Array.from({ length: valueAt(DAYS, m) }, () => ({ inflow: month.deliveryPerDay, demand: month.needPerDay })),
  );
  const { stored, overflow, shortfall } = storageBalance({ capacity, start: capacity, steps });
  let first = 0;
  return daily.map((month, m) => {
    const days = [first, first + valueAt(DAYS, m)] as const;
    first = days[1];
    const sum = (values: readonly number[]) => values.slice(...days).reduce((s, v) => s + v, 0);
    return {
      ...month,
      overflow: sum(overflow),
      shortfall: sum(shortfall),
      daysShort: shortfall.slice(...days).filter((v) => v > 0).length,
      lowest: Math.min(...stored.slice(...days)),
    };
  });
}
