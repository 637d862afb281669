import type { Pascals } from '../../units/quantity.ts';
import type { LineResult } from '../result/evaluation.ts';
import { pressureOf } from '../result/pressures.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { waveReach } from '../spread/wave-reach.ts';
import { type Spread, spreadOf } from '../statistics/compare.ts';
import { type Judged, judge, sure } from './finding.ts';

/** Pressures against the pipes' ratings. A pipe without a known rating is not judged. */
export function judgePressure(system: SolvedSystem, lines: readonly LineResult[]): Judged[] {
  return lines.flatMap((line) => [...judgeLine(system, line), ...judgeWarmth(system, line)]);
}

/** A pipe whose rating says nothing of water this warm. */
function judgeWarmth({ site }: SolvedSystem, { id }: LineResult): Judged[] {
  const { plan, profiles, pipes } = site;
  const ratedTo = pipes.get(profiles.get(id)?.route.pipe ?? '')?.ratedTo ?? null;
  if (ratedTo === null || plan.waterTemperature <= ratedTo) return [];
  return [judge('pipe-warm', plan.confidence, { about: id, spread: sure(plan.waterTemperature), limit: ratedTo })];
}

/** Output whose spread the pressure of a line has: the level difference that makes it. */
function headOutput({ layout, model }: SolvedSystem, line: Pick<LineResult, 'id'>): number {
  const feed = model.feeds.findIndex((f) => f.route === line.id);
  if (feed >= 0) return layout.feed(feed, 'feed-still-head');
  const destination = model.destinations.findIndex((d) => d.route === line.id);
  return destination < 0 ? layout.shared('fall-at-rest') : layout.destination(destination, 'delivery-head');
}

/** How far the pressure may lie beside the likely one. */
interface Reach {
  readonly below: Pascals;
  readonly above: Pascals;
}

/** Of the pressure at rest or running. */
function reachOf(system: SolvedSystem, line: Pick<LineResult, 'id'>): Reach {
  const { low, likely, high } = system.known.estimate(headOutput(system, line));
  const temperature = system.site.plan.waterTemperature;
  return { below: pressureOf(likely - low, temperature), above: pressureOf(high - likely, temperature) };
}

/** A pressure that is not below that of the air. */
export function around(likely: Pascals, { below, above }: Reach): Spread {
  return spreadOf({ low: Math.max(0, likely - below), likely, high: likely + above });
}

/** Of any pressure that a line comes under, with the doubt of the pump's wave where it feels that. */
export function widestReach(system: SolvedSystem, line: Pick<LineResult, 'id' | 'role'>): Reach {
  const reach = reachOf(system, line);
  if (line.role !== 'drive' && line.role !== 'delivery') return reach;
  // A relief valve opens whatever the wave would reach.
  if (system.site.profiles.get(line.id)?.route.relief !== undefined) return reach;
  const wave = pressureOf(waveReach(system), system.site.plan.waterTemperature);
  return { below: Math.hypot(reach.below, wave), above: Math.hypot(reach.above, wave) };
}

function judgeLine(system: SolvedSystem, line: LineResult): Judged[] {
  if (line.pressure === null || line.rating === null) return [];
  const { confidence } = system.site.plan;
  const reach = reachOf(system, line);
  const { still, running, blocked } = line.pressure;
  const about = line.id;
  const limit = line.rating;
  const output = headOutput(system, line);
  const found = [
    judge('pipe-pressure', confidence, { about, spread: around(Math.max(still, running), reach), limit, output }),
  ];
  if (line.role === 'drive' || line.role === 'delivery') {
    const spread = around(blocked, widestReach(system, line));
    found.push(judge('blocked-pressure', confidence, { about, spread, limit, facts: { role: line.role }, output }));
  }
  return found;
}
