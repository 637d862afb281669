import { evaluate, type Ground } from '../evaluation/evaluate/evaluate.ts';
import { type Site, siteOf } from '../evaluation/site/site.ts';
import { sourceFlow } from '../evaluation/site/source-yield.ts';
import type { Plan, PlanRoute, RouteRole } from '../plan/model/plan.ts';
import { balancedWeight, boreArea, terminalVelocity } from '../ram/cycle/ram-system.ts';
import { wornCycle } from '../ram/cycle/worn-cycle.ts';
import type { CubicMetres, CubicMetresPerSecond, Metres, Ratio, Seconds } from '../units/quantity.ts';
import { fieldOfPlan } from './model/field-of-plan.ts';
import { type FieldRam, readingsOf } from './model/field-ram.ts';

/** What the sheets for a pump at work are made from. */
export interface PumpFacts {
  readonly fill: readonly LineToFill[];
  readonly drains: readonly Drain[];
  /** Null where the plan says too little of its pump. */
  readonly start: FirstReadings | null;
  readonly tuning: readonly TuningRow[];
  readonly parts: 'own' | 'usual';
}

/** A line in the order in which it is filled. */
export interface LineToFill {
  readonly name: string;
  readonly role: RouteRole;
  readonly volume: CubicMetres;
  /** Null where nothing tells its flow. */
  readonly time: Seconds | null;
}

/** A sag that keeps water when the line is let out at its ends. */
export interface Drain {
  readonly line: string;
  /** Along the line from its start. */
  readonly at: Metres;
  readonly holds: CubicMetres;
}

export interface FirstReadings {
  readonly gaugeRest: Metres;
  readonly gaugeRunning: Metres | null;
  readonly beatsPerMinute: number | null;
  readonly waste: CubicMetresPerSecond | null;
  readonly delivery: CubicMetresPerSecond | null;
  readonly leastBackPressure: Metres;
}

/** How the waste valve is set for one month's water. */
export interface TuningRow {
  /** 0 for January; null for the source as it was read. */
  readonly month: number | null;
  readonly source: CubicMetresPerSecond;
  /** Weight over the present one. */
  readonly weight: Ratio;
  readonly beatsPerMinute: number;
  readonly intake: CubicMetresPerSecond;
  readonly delivery: CubicMetresPerSecond;
  /** Intakes below and above which it stops. */
  readonly stopsBelow: CubicMetresPerSecond;
  readonly stopsAbove: CubicMetresPerSecond;
  /** Whether the water reaches for the least setting that is well away from its end. */
  readonly enough: boolean;
}

const FILL_ORDER: readonly RouteRole[] = ['supply', 'drive', 'delivery', 'gravity'];

export function pumpFacts(plan: Plan, ground: Ground): PumpFacts {
  const site = siteOf(plan, ground);
  const found = fieldOfPlan(plan, ground);
  const field = found.ok ? found.field : null;
  return {
    fill: fillOf(plan, ground, site),
    drains: plan.routes.flatMap((route) => drainsOf(site, route)),
    start: field === null ? null : startOf(field),
    tuning: field === null ? [] : tuningOf(plan, field),
    parts: found.ok ? found.parts : 'usual',
  };
}

function fillOf(plan: Plan, ground: Ground, site: Site): LineToFill[] {
  const flows = new Map(evaluate(plan, ground).lines.map(({ id, flow }) => [id, flow]));
  return plan.routes
    .toSorted((a, b) => FILL_ORDER.indexOf(a.role) - FILL_ORDER.indexOf(b.role))
    .flatMap((route) => {
      const area = areaOf(site, route);
      const length = site.profiles.get(route.id)?.line.slope;
      if (area === null || length === undefined) return [];
      const volume = area * length;
      const flow = flows.get(route.id) ?? null;
      return [{ name: route.name, role: route.role, volume, time: flow !== null && flow > 0 ? volume / flow : null }];
    });
}

function areaOf(site: Site, route: PlanRoute): number | null {
  const pipe = site.pipes.get(route.pipe);
  return pipe === undefined ? null : boreArea(pipe.bore);
}

/** Water below the lower of the two crests beside a sag stays in the pipe when both ends are open. */
function drainsOf(site: Site, route: PlanRoute): Drain[] {
  const area = areaOf(site, route);
  const profile = site.profiles.get(route.id);
  if (area === null || profile === undefined) return [];
  const { height, line } = profile;
  return profile.turnings
    .filter(({ kind }) => kind === 'sag')
    .flatMap(({ sample, at }) => {
      const level = Math.min(crestFrom(height, sample, -1), crestFrom(height, sample, 1));
      const wet = wetLength(height, line.at, { sample, level });
      return wet > 0 ? [{ line: route.name, at, holds: area * wet }] : [];
    });
}

/** The highest ground on the way from a sag to one end. */
function crestFrom(height: Float64Array, sample: number, step: 1 | -1): Metres {
  let highest = height[sample] as number;
  for (let i = sample; i >= 0 && i < height.length; i += step) highest = Math.max(highest, height[i] as number);
  return highest;
}

/** Length along the ground of the stretch about a sample that lies below a level. */
function wetLength(
  height: Float64Array,
  at: Float64Array,
  sag: { readonly sample: number; readonly level: Metres },
): Metres {
  const isWet = (i: number) => i >= 0 && i < height.length && (height[i] as number) < sag.level;
  let [first, last] = [sag.sample, sag.sample];
  while (isWet(first - 1)) first -= 1;
  while (isWet(last + 1)) last += 1;
  let length = 0;
  for (let i = first; i < last; i += 1) {
    const along = (at[i + 1] as number) - (at[i] as number);
    length += Math.hypot(along, (height[i + 1] as number) - (height[i] as number));
  }
  return length;
}

/** About 10 psi, or twice the fall. Source: W. B. Smith, Clemson Extension, p. 23; twice the fall is common practice. */
const BACK_PRESSURE: Metres = 7;

function startOf(field: FieldRam): FirstReadings {
  const read = readingsOf(field);
  return {
    gaugeRest: field.lift,
    gaugeRunning: read.gaugeRunning,
    beatsPerMinute: read.beatsPerMinute,
    waste: read.waste,
    delivery: read.deliveryAtPump,
    leastBackPressure: Math.max(2 * field.fall, BACK_PRESSURE),
  };
}

/** Settings looked through, as shares of the terminal velocity, and how far the advice keeps from both ends. */
const SETTINGS = { least: 0.1, most: 0.97, count: 60 } as const;
const AWAY = { low: 1.15, high: 0.88 } as const;

interface Setting {
  readonly weight: Ratio;
  readonly beatsPerMinute: number;
  readonly intake: CubicMetresPerSecond;
  readonly delivery: CubicMetresPerSecond;
}

function tuningOf(plan: Plan, field: FieldRam): TuningRow[] {
  const read = sourceFlow(plan.yieldReadings);
  const settings = settingsOf(field);
  const [first, last] = [settings[0], settings.at(-1)];
  if (read === null || first === undefined || last === undefined) return [];
  const kept = 1 - (plan.leftInStream ?? 0);
  const pumps = plan.pump?.count ?? 1;
  const months =
    plan.year.length === 12 ? plan.year.map(({ sourceShare }, month) => ({ month, share: sourceShare ?? 1 })) : [];
  const rows = months.length > 0 ? months : [{ month: null, share: 1 }];
  const [low, high] = [AWAY.low * first.intake, AWAY.high * last.intake];
  return rows.flatMap(({ month, share }) => {
    const source = read.flow * share * kept;
    const most = Math.min(high, source / pumps);
    const fit =
      settings.filter(({ intake }) => intake >= low && intake <= most).at(-1) ??
      settings.find(({ intake }) => intake >= low);
    if (fit === undefined) return [];
    return [{ month, source, ...fit, stopsBelow: first.intake, stopsAbove: last.intake, enough: most >= low }];
  });
}

/** Settings at which it runs, in rising order of what it takes. */
function settingsOf(field: FieldRam): Setting[] {
  const found: Setting[] = [];
  const terminal = terminalVelocity(field.ram, field.fall);
  const heads = { fall: field.fall, deliveryHead: field.lift + field.line.headLoss(field.usualDelivery) };
  for (let i = 0; i <= SETTINGS.count; i += 1) {
    const share = SETTINGS.least + ((SETTINGS.most - SETTINGS.least) * i) / SETTINGS.count;
    const weightHead = balancedWeight(field.ram, share * terminal);
    const run = wornCycle({ ...field, closing: { ...field.closing, weightHead } }, heads);
    const intake = run.waste + run.delivery;
    if (run.state !== 'runs' || !(run.delivery > 0) || intake <= (found.at(-1)?.intake ?? 0)) continue;
    const weight = weightHead / field.closing.weightHead;
    found.push({ weight, beatsPerMinute: run.beatsPerMinute, intake, delivery: run.delivery });
  }
  return found;
}
