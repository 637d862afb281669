import { spreadOf } from '../compare.ts';
import type { LineResult } from '../evaluation.ts';
import { pressureOf } from '../pressures.ts';
import type { SolvedSystem } from '../system.ts';
import { type Judged, judge } from './finding.ts';

/** Pressures against the pipes' ratings. A pipe without a known rating is not judged. */
export function judgePressure(system: SolvedSystem, lines: readonly LineResult[]): Judged[] {
  return lines.flatMap((line) => judgeLine(system, line));
}

/** How far the pressure may lie beside the likely one, from the spread of the lift (or of the fall) that makes it. */
function reachOf({ site, known, layout, model }: SolvedSystem, line: LineResult): { below: number; above: number } {
  const index = model.destinations.findIndex((d) => d.route === line.id);
  const head = known.estimate(index < 0 ? layout.shared('fall-at-rest') : layout.destination(index, 'delivery-head'));
  const temperature = site.plan.waterTemperature;
  return {
    below: pressureOf(head.likely - head.low, temperature),
    above: pressureOf(head.high - head.likely, temperature),
  };
}

function judgeLine(system: SolvedSystem, line: LineResult): Judged[] {
  if (line.pressure === null || line.rating === null) return [];
  const { confidence } = system.site.plan;
  const { below, above } = reachOf(system, line);
  const around = (likely: number) => spreadOf({ low: Math.max(0, likely - below), likely, high: likely + above });
  const { still, running, blocked } = line.pressure;
  const about = line.id;
  const limit = line.rating;
  const found = [judge('pipe-pressure', confidence, { about, spread: around(Math.max(still, running)), limit })];
  if (line.role === 'drive' || line.role === 'delivery') {
    found.push(
      judge('blocked-pressure', confidence, { about, spread: around(blocked), limit, facts: { role: line.role } }),
    );
  }
  return found;
}
