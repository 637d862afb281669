import type { MonthOfYear, Plan } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import type { LineResult } from '../result/evaluation.ts';
import { type LineProfile, trenchOf } from '../site/line-profile.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { scaled, within95 } from '../statistics/compare.ts';
import { type Judged, judge, undecided } from './finding.ts';

/** What can be said of every line: velocity of the water and frost; and whether there is a pump to speak of. */
export function judgeLines(site: Site, system: SolvedSystem | null, lines: readonly LineResult[]): Judged[] {
  return [...judgeFrost(site), ...(system === null ? [] : [...judgeVelocity(system, lines), ...judgeChoice(system)])];
}

/** A pump that nobody has chosen yet is reckoned as any. */
function judgeChoice({ site }: SolvedSystem): Judged[] {
  const { plan, arrangement } = site;
  if (plan.pump !== null || arrangement.pump === null) return [];
  return [judge('pump-unchosen', plan.confidence, { about: arrangement.pump.id, spread: undecided(0), limit: 1 })];
}

/** Output that a line's flow is; null for the drive pipe, whose water beats. */
function flowOutput({ layout, model }: SolvedSystem, line: LineResult): number | null {
  if (line.role === 'supply') return layout.shared('running-flow');
  const feed = model.feeds.findIndex(({ route }) => route === line.id);
  if (feed >= 0) return layout.feed(feed, 'feed-flow');
  const destination = model.destinations.findIndex(({ route }) => route === line.id);
  return destination < 0 ? null : layout.destination(destination, 'delivery');
}

/** Water in a plastic line that is stopped at once raises a surge that grows with its velocity. */
function judgeVelocity(system: SolvedSystem, lines: readonly LineResult[]): Judged[] {
  const { site, known } = system;
  return lines.flatMap((line) => {
    const route = site.profiles.get(line.id)?.route;
    const pipe = route && site.pipes.get(route.pipe);
    const output = flowOutput(system, line);
    if (line.flow === null || output === null || !pipe || (pipe.material !== 'pe' && pipe.material !== 'pvc'))
      return [];
    const spread = scaled(known.spread(output), 4 / (Math.PI * pipe.bore ** 2));
    return [judge('velocity-high', site.plan.confidence, { about: line.id, spread, output })];
  });
}

const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Degrees below freezing times days of a year, °C d. */
export function frostIndex(year: readonly MonthOfYear[]): number {
  return year.reduce((sum, { airTemperature }, m) => sum + Math.max(0, -(airTemperature ?? 0)) * (DAYS[m] ?? 0), 0);
}

/** Conductivity of frozen moist soil, W/(m K), and the heat that its water gives off freezing, J/m³. From memory. */
const SOIL = { conductivity: 1.8, latentHeat: 8e7, day: 86_400 } as const;

/**
 * Depth to which bare moist ground freezes: d = √(2 k F / L).
 *
 * F frost index as temperature times time, K s; k conductivity of the frozen soil, W/(m K); L latent heat of its water, J/m³. Snow
 * and grass keep the frost out, dry sand and gravel let it deeper. Source: Stefan's rule, from memory.
 */
export function frostDepth(year: readonly MonthOfYear[]): Metres {
  return Math.sqrt((2 * SOIL.conductivity * frostIndex(year) * SOIL.day) / SOIL.latentHeat);
}

/** How far a depth of frost may be off: half of a 95 % interval, as a share. */
const FROST_DOUBT = 0.4;

const shallowest = (profiles: Iterable<LineProfile>): LineProfile | null =>
  [...profiles].reduce<LineProfile | null>(
    (least, each) => (least === null || trenchOf(each.route) < trenchOf(least.route) ? each : least),
    null,
  );

/** Whether the shallowest line lies below the frost of the months that were typed in. */
function judgeFrost({ plan, profiles }: Site): Judged[] {
  const depth = frostDepth(plan.year satisfies Plan['year']);
  const line = shallowest(profiles.values());
  if (depth <= 0 || line === null) return [];
  const laid = trenchOf(line.route);
  const margin = within95({
    low: laid - depth * (1 + FROST_DOUBT),
    likely: laid - depth,
    high: laid - depth * (1 - FROST_DOUBT),
  });
  return [
    judge('frost-depth', plan.confidence, { about: line.route.id, spread: margin, limit: 0, facts: { depth, laid } }),
  ];
}
