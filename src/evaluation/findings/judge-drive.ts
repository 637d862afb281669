import { exactly, spreadOf } from '../compare.ts';
import type { LineProfile } from '../line-profile.ts';
import { Z90 } from '../normal.ts';
import type { SolvedSystem } from '../system.ts';
import type { FindingCode } from './catalogue.ts';
import { type Judged, judge } from './finding.ts';

/** How deep a drive pipe is let into the ground to run straight without being dug specially. Common practice, no source. */
const SHALLOW_TRENCH = 0.3;

/** The drive pipe: straight, falling all the way, and neither too long nor too short. */
export function judgeDrive(system: SolvedSystem): Judged[] {
  const { drive } = system.site.arrangement;
  const profile = drive ? system.site.profiles.get(drive.id) : undefined;
  if (profile === undefined) return [];
  return [...judgeLength(system, profile), ...judgeStraight(system, profile)];
}

/** Rules of length are ranges: only the nearer end of each is judged. */
function judgeLength({ site, spread, layout }: SolvedSystem, { route, line }: LineProfile): Judged[] {
  const { confidence } = site.plan;
  const found: Judged[] = [];
  const length = line.slope;
  const nearer = (
    value: number,
    [least, most]: readonly [FindingCode, FindingCode],
    ends: readonly [number, number],
  ) => (value * value < ends[0] * ends[1] ? least : most);
  const bore = site.pipes.get(route.pipe)?.bore;
  if (bore !== undefined) {
    const value = length / bore;
    const code = nearer(value, ['drive-length-bore-least', 'drive-length-bore-most'], [150, 1000]);
    found.push(judge(code, confidence, { about: route.id, spread: exactly(value), facts: { length, bore } }));
  }
  const fall = spread.estimate(layout.shared('fall'));
  if (fall.low > 0) {
    const code = nearer(length / fall.likely, ['drive-length-fall-least', 'drive-length-fall-most'], [5, 10]);
    const ratio = { low: length / fall.high, likely: length / fall.likely, high: length / fall.low };
    found.push(
      judge(code, confidence, {
        about: route.id,
        spread: spreadOf(ratio),
        facts: { length, fall: fall.likely },
        output: layout.shared('fall'),
      }),
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
    const straight = start + ((end - start) * (line.at[i] ?? 0)) / (line.horizontal || 1);
    most = Math.max(most, (height[i] ?? 0) - straight);
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
