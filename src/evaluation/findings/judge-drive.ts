import { criterion } from '../../handbook/practice-criteria.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import { trenchOf } from '../site/line-profile.ts';
import { boreSpread, laidLength } from '../site/pipe-of-plan.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { quotient, reachOfTolerance, spreadOf } from '../statistics/compare.ts';
import { Z90 } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import { FINDINGS, type FindingCode } from './catalogue.ts';
import { type Judged, judge } from './finding.ts';

/** The drive pipe: straight, falling all the way, and neither too long nor too short. */
export function judgeDrive(system: SolvedSystem): Judged[] {
  const { drive } = system.site.arrangement;
  const profile = drive ? system.site.profiles.get(drive.id) : undefined;
  if (profile === undefined) return [];
  return [
    ...judgeLength(system, profile),
    ...judgeStraight(system, profile),
    ...judgeStiffness(system, profile),
    ...judgePump(system, profile),
  ];
}

type Ends = readonly [least: FindingCode, most: FindingCode];

/** The end of a rule's range that a value lies nearer to, as lengths go: by ratio. */
function nearerEnd(value: number, [least, most]: Ends): FindingCode {
  const limit = (code: FindingCode) => criterion(FINDINGS[code].criterion ?? 'fall-least').value;
  return value * value < limit(least) * limit(most) ? least : most;
}

/** Rules of length are ranges: only the nearer end of each is judged. */
function judgeLength({ site, known, layout }: SolvedSystem, { route, line }: LineProfile): Judged[] {
  const { confidence } = site.plan;
  const found: Judged[] = [];
  const length = line.slope;
  const about = route.id;
  const laid = laidLength(length);
  const pipe = site.pipes.get(route.pipe);
  if (pipe !== undefined) {
    const { bore } = pipe;
    const code = nearerEnd(length / bore, ['drive-length-bore-least', 'drive-length-bore-most']);
    const spread = quotient(laid, boreSpread(pipe));
    found.push(judge(code, confidence, { about, spread, facts: { length, bore } }));
  }
  const output = layout.shared('fall');
  const fall = known.spread(output);
  if (fall.estimate.low > 0) {
    const { likely } = fall.estimate;
    const code = nearerEnd(length / likely, ['drive-length-fall-least', 'drive-length-fall-most']);
    found.push(
      judge(code, confidence, { about, spread: quotient(laid, fall), facts: { length, fall: likely }, output }),
    );
  }
  return found;
}

/** The ground's greatest distance from a straight pipe between the ends, above or below, m. */
function offStraight({ line, height, start, end }: LineProfile): number {
  if (start === null || end === null) return 0;
  let most = 0;
  for (let i = 0; i < height.length; i++) {
    if (!line.known[i]) continue;
    const straight = start + ((end - start) * valueAt(line.at, i)) / (line.horizontal || 1);
    most = Math.max(most, Math.abs(valueAt(height, i) - straight));
  }
  return most;
}

/** How far the ground climbs on the way from the inlet down to the pump above the lowest it has come to, m, and where. */
function climb({ line, height }: LineProfile): { readonly most: number; readonly at: number } {
  let [lowest, most, at] = [Number.POSITIVE_INFINITY, 0, 0];
  for (let i = 0; i < height.length; i++) {
    if (!line.known[i]) continue;
    const here = height[i] ?? 0;
    lowest = Math.min(lowest, here);
    if (here - lowest > most) {
      most = here - lowest;
      at = line.at[i] ?? 0;
    }
  }
  return { most, at };
}

function judgeStraight({ site, accuracy }: SolvedSystem, profile: LineProfile): Judged[] {
  // Neighbouring heights of one DEM differ by its cell-to-cell noise.
  const reach = Z90 * Math.SQRT2 * accuracy.nugget;
  const around = (likely: number) => spreadOf({ low: likely - reach, likely, high: likely + reach });
  const about = profile.route.id;
  const limit = trenchOf(profile.route);
  const { most, at } = climb(profile);
  return [
    judge('drive-rises', site.plan.confidence, { about, spread: around(most), limit, facts: { at } }),
    judge('drive-bent', site.plan.confidence, { about, spread: around(offStraight(profile)), limit }),
  ];
}

/** A soft pipe takes the edge off the pressure wave, and is bent by it at every beat. */
function judgeStiffness({ site, wave, highestHead }: SolvedSystem, { route }: LineProfile): Judged[] {
  if (wave === null) return [];
  const reach = reachOfTolerance(TOLERANCES.wave.value * wave.speed) / 2;
  const spread = spreadOf({ low: wave.speed - reach, likely: wave.speed, high: wave.speed + reach });
  const facts = highestHead === null ? {} : { reach: highestHead };
  return [judge('drive-plastic', site.plan.confidence, { about: route.id, spread, facts })];
}

/** The pump against the pipe that is bolted to it, and what comes out of it. */
function judgePump({ site, model }: SolvedSystem, { route }: LineProfile): Judged[] {
  const { confidence } = site.plan;
  const { pump } = site.arrangement;
  const pipe = site.pipes.get(route.pipe);
  const found: Judged[] = [];
  const { driveBore } = model.each;
  if (pipe !== undefined && driveBore !== null) {
    const { low, likely, high } = boreSpread(pipe).estimate;
    const apart = [low, likely, high].map((bore) => Math.abs(bore / driveBore - 1));
    const spread = spreadOf({ low: Math.min(...apart), likely: apart[1] ?? 0, high: Math.max(...apart) });
    found.push(judge('pump-bore', confidence, { about: route.id, spread, facts: { bore: pipe.bore, driveBore } }));
  }
  if (pump !== null) {
    const clear = pump.wasteValveHeight;
    const spread = spreadOf({ low: clear - SET_BY_EYE, likely: clear, high: clear + SET_BY_EYE });
    found.push(judge('waste-valve-low', confidence, { about: pump.id, spread }));
  }
  return found;
}

/** How exactly a height above the ground is set before anything is built, 10th to 90th percentile. Common practice, no source. */
const SET_BY_EYE: Metres = 0.03;
