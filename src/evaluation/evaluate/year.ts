import { herdNeed, herdRow } from '../../handbook/livestock-needs.ts';
import type { HerdGroup, MonthOfYear, Plan } from '../../plan/model/plan.ts';
import type { CubicMetres, Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { type Judged, judge } from '../findings/finding.ts';
import type { TankMonth, TankYear } from '../result/evaluation.ts';
import type { Site } from '../site/site.ts';
import type { DrawOrder } from '../spread/samples.ts';
import { drawn, solve } from '../spread/solve.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { spreadOf } from '../statistics/compare.ts';
import { DAY, type Estimate } from '../statistics/estimate.ts';

/** Less than half a day is none. */
const NO_DAY = 0.5;

/** Days in a year on which the herd at a tank gets less than it wants; nothing of a tank that is set aside. */
export function judgeYear(system: SolvedSystem | null, years: readonly TankYear[]): Judged[] {
  if (system === null) return [];
  const { plan } = system.site;
  const aside = new Set(plan.points.filter((p) => p.role === 'tank' && p.standing === 'set-aside').map(({ id }) => id));
  return years.flatMap(({ id, months, daysShort }) => {
    if (aside.has(id)) return [];
    const most = Math.max(...months.map((m) => m.daysShort));
    const worst = months.findIndex((m) => m.daysShort === most);
    const missing = months.reduce((sum, m) => sum + m.shortfall, 0);
    const facts = most > 0 ? { month: `month-${worst + 1}`, missing } : {};
    const index = system.model.destinations.findIndex((d) => d.id === id);
    const output = system.layout.destination(index, 'delivery');
    const spread = spreadOf(daysShort);
    return [judge('year-short', plan.confidence, { about: id, spread, limit: NO_DAY, output, facts })];
  });
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

/** The site in a month: what the source gives and the herd drinks then, and so many pumps running. */
function siteIn(site: Site, month: MonthOfYear, pumps: number): Site {
  const { dryShareDoubt, ...plan } = site.plan;
  const own = month.sourceShare === null;
  return {
    ...site,
    demandPerDay: needPerDay(site.plan, month),
    plan: {
      ...plan,
      dryShare: month.sourceShare ?? plan.dryShare,
      ...(own && dryShareDoubt !== undefined && { dryShareDoubt }),
      pump: plan.pump && { ...plan.pump, count: pumps },
    },
  };
}

/** The system of a month. Of several pumps side by side as many run as the water likely feeds. */
function systemIn(base: SolvedSystem, month: MonthOfYear): SolvedSystem | null {
  for (let pumps = base.model.pumps; pumps > 1; pumps--) {
    const system = solve(siteIn(base.site, month, pumps), base.accuracy);
    if (system !== null && valueAt(system.spread.likely, system.layout.shared('beats')) > 0) return system;
  }
  return solve(siteIn(base.site, month, 1), base.accuracy);
}

const NOTHING: Estimate = { low: 0, likely: 0, high: 0 };

/** What arrives a day at every destination with a line in a month, m³; null without a line. */
function* arrivingIn(
  base: SolvedSystem,
  month: MonthOfYear,
  order: DrawOrder | null,
): Generator<number, readonly (Estimate | null)[]> {
  const first = systemIn(base, month);
  const system = first && order ? yield* drawn(first, order) : first;
  return base.model.destinations.map(({ loss }, i) => {
    if (loss === null) return null;
    if (system === null) return NOTHING;
    const { low, likely, high } = system.known.estimate(system.layout.destination(i, 'arrives'));
    return { low: low * DAY, likely: likely * DAY, high: high * DAY };
  });
}

/**
 * A year of days at every tank: what arrives by the very run that the day's answer comes from, what the herd wants, what runs
 * over and what is missing. A month whose share of the source is not given takes the dry season's. The tank is full at first;
 * the second of two equal years is told, so that a dry season over New Year counts. Null until the user has given the twelve
 * months, a herd and a reading of the source. Gives the number of draws done at every stop.
 */
export function* yearInDraws(
  base: SolvedSystem | null,
  order: DrawOrder | null,
): Generator<number, readonly TankYear[] | null> {
  if (base === null) return null;
  const { plan, shares, arrangement } = base.site;
  if (plan.year.length !== DAYS.length || plan.herd.length === 0 || plan.yieldReadings.length === 0) return null;
  const taking = base.model.feeds.some((f) => f.draw !== null);
  const found = new Map<string, readonly (Estimate | null)[]>();
  const months: { readonly need: CubicMetres; readonly arriving: readonly (Estimate | null)[] }[] = [];
  for (const month of plan.year) {
    const need = needPerDay(plan, month);
    // Months alike in what bears on the pump are run once.
    const key = `${month.sourceShare} ${taking ? need : ''}`;
    const arriving = found.get(key) ?? (yield* arrivingIn(base, month, order));
    found.set(key, arriving);
    months.push({ need, arriving });
  }
  const capacity = new Map(arrangement.destinations.map((d) => [d.point.id, d.point.volume]));
  return base.model.destinations.flatMap((destination, i) => {
    if (destination.loss === null) return [];
    const share: Ratio = shares.brought(destination.id);
    const volume = capacity.get(destination.id) ?? 0;
    const at = (which: keyof Estimate) =>
      tankYear(
        months.map((m) => ({ needPerDay: share * m.need, deliveryPerDay: m.arriving[i]?.[which] ?? 0 })),
        volume,
      );
    const short = (year: readonly TankMonth[]) => year.reduce((sum, m) => sum + m.daysShort, 0);
    const likely = at('likely');
    const daysShort = { low: short(at('high')), likely: short(likely), high: short(at('low')) };
    return [{ id: destination.id, months: likely, daysShort }];
  });
}

function tankYear(
  daily: readonly Pick<TankMonth, 'needPerDay' | 'deliveryPerDay'>[],
  capacity: CubicMetres,
): readonly TankMonth[] {
  const steps = daily.flatMap((month, m) =>
    Array.from({ length: valueAt(DAYS, m) }, () => ({ inflow: month.deliveryPerDay, demand: month.needPerDay })),
  );
  const { stored, overflow, shortfall } = storageBalance({ capacity, start: capacity, steps: [...steps, ...steps] });
  let first: number = steps.length;
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

/** What comes in and is wanted in one step of time. */
interface StorageStep {
  readonly inflow: CubicMetres;
  readonly demand: CubicMetres;
}

/** A store after each step, and what it could not hold or could not give. */
interface StorageBalance {
  readonly stored: readonly CubicMetres[];
  readonly overflow: readonly CubicMetres[];
  readonly shortfall: readonly CubicMetres[];
}

/**
 * A tank stepped through time: stored' = stored + inflow − demand, held between empty and full.
 *
 * What would rise above full runs over; what would sink below empty was not given. Water is conserved:
 * start + Σ inflow = end + Σ (demand − shortfall) + Σ overflow.
 */
export function storageBalance(tank: {
  readonly capacity: CubicMetres;
  readonly start: CubicMetres;
  readonly steps: readonly StorageStep[];
}): StorageBalance {
  const { capacity, start, steps } = tank;
  if (!(capacity >= 0 && start >= 0 && start <= capacity)) {
    throw new RangeError(`found ${start} m³ in a store of ${capacity} m³, expected 0 to its capacity`);
  }
  const stored: CubicMetres[] = [];
  const overflow: CubicMetres[] = [];
  const shortfall: CubicMetres[] = [];
  let level = start;
  for (const { inflow, demand } of steps) {
    const free = level + inflow - demand;
    level = Math.min(Math.max(free, 0), capacity);
    stored.push(level);
    overflow.push(Math.max(free - capacity, 0));
    shortfall.push(Math.max(-free, 0));
  }
  return { stored, overflow, shortfall };
}
