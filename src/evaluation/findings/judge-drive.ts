import { criterion } from '../../handbook/practice-criteria.ts';
import { valueAt } from '../../units/value-at.ts';
import type { LineProfile } from '../site/line-profile.ts';
import { SHALLOW_TRENCH } from '../site/line-profile.ts';
import { boreSpread, laidLength } from '../site/pipe-of-plan.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { quotient, spreadOf } from '../statistics/compare.ts';
import { Z90 } from '../statistics/normal.ts';
import { FINDINGS, type FindingCode } from './catalogue.ts';
import { type Judged, judge } from './finding.ts';

/** The drive pipe: straight, falling all the way, and neither too long nor too short. */
export function judgeDrive(system: SolvedSystem): Judged[] {
  const { drive } = system.site.arrangement;
  const profile = drive ? system.site.profiles.get(drive.id) : undefined;
  if (profile === undefined) return [];
  return [...judgeLength(system, profile), ...judgeStraight(system, profile)];
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

/** The ground's greatest rise above a straight pipe between the ends, m; below 0 where it stays under it. */
function riseAboveStraight({ line, height, start, end }: LineProfile): number {
  if (start === null || end === null) return 0;
  let most = 0;
  for (let i = 0; i < height.length; i++) {
    if (!line.known[i]) continue;
    const straight = start + ((end - start) * valueAt(line.at, i)) / (line.horizontal || 1);
    most = Math.max(most, valueAt(height, i) - straight);
  }
  return most;
}

function judgeStraight({ site, accuracy }: SolvedSystem, profile: LineProfile): Judged[] {
  const rise = riseAboveStraight(profile);
  // Neighbouring heights of one DEM differ by its cell-to-cell noise.
  const reach = Z90 * Math.SQRT2 * accuracy.nugget;
  return [
    judge('drive-rises', site.plan.confidence, {
      about: profile.route.id,
      spread: spreadOf({ low: rise - reach, likely: rise, high: rise + reach }),
      limit: SHALLOW_TRENCH,
    }),
  ];
}
