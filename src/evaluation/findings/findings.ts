import { criterion } from '../../handbook/practice-criteria.ts';
import type { Pascals } from '../../units/quantity.ts';
import type { LineResult, StandpipeResult } from '../result/evaluation.ts';
import { pressureOf } from '../result/pressures.ts';
import type { LineProfile } from '../site/line-profile.ts';
import { SHALLOW_TRENCH } from '../site/line-profile.ts';
import { boreSpread, laidLength } from '../site/pipe-of-plan.ts';
import type { Site } from '../site/site.ts';
import { CAREFUL_LEVEL } from '../spread/doubt.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { waveReach } from '../spread/wave-reach.ts';
import { quotient, type Spread, spreadOf } from '../statistics/compare.ts';
import { Z90 } from '../statistics/normal.ts';
import { FINDINGS, type FindingCode } from './catalogue.ts';
import { type Judged, judge, undecided } from './finding.ts';
import { judgeDelivery } from './judge-delivery.ts';
import { judgeFeeds, judgeGravity } from './judge-gravity.ts';
import { judgeRam } from './judge-ram.ts';
import { judgeSource } from './judge-source.ts';

/** Every finding of a plan, in the order in which the water passes: ground, source, drive, delivery, gravity, pressures. */
export function findingsOf(
  site: Site,
  system: SolvedSystem | null,
  known: {
    readonly lines: readonly LineResult[];
    readonly standpipe: StandpipeResult | null;
    /** What the gravity lines are judged by: the system, or without a pump they by themselves. */
    readonly gravity: SolvedSystem | null;
  },
): Judged[] {
  const ground = judgeGround(site);
  if (system === null) {
    const { gravity, lines } = known;
    return gravity === null ? ground : [...ground, ...judgeFeeds(gravity), ...judgePressure(gravity, lines)];
  }
  return [
    ...ground,
    ...judgeSource(system, known.standpipe),
    ...judgeDrive(system),
    ...judgeRam(system),
    ...system.model.destinations.flatMap((_, i) => judgeDelivery(system, i)),
    ...judgeGravity(system),
    ...judgePressure(system, known.lines),
  ];
}

/** Places where the DEM says nothing: they are to be walked, whatever the rest says. */
function judgeGround(site: Site): Judged[] {
  const { plan, heights, profiles } = site;
  const points = plan.points
    .filter((p) => heights.node(p.id) === null)
    .map((p) =>
      judge('point-unknown', plan.confidence, {
        about: p.id,
        spread: undecided(1),
        limit: 0,
        facts: { aim: CAREFUL_LEVEL },
      }),
    );
  const lines = [...profiles.values()]
    .filter((p) => p.void > 0)
    .map((p) => judge('ground-unknown', plan.confidence, { about: p.route.id, spread: undecided(p.void), limit: 0 }));
  return [...points, ...lines, ...judgeFiles(site)];
}

/** Differences that matter and whose two heights come from different files: the fall, and the lift to each destination. */
function judgeFiles({ plan, arrangement, heights }: Site): Judged[] {
  const { source, pump, destinations } = arrangement;
  const pairs = [source, ...destinations.map((d) => d.point)].flatMap((p) =>
    p && pump ? [[p.id, pump.id] as const] : [],
  );
  return pairs.flatMap(([about, other]) => {
    const [a, b] = [heights.file(about), heights.file(other)];
    if (a === null || b === null || a === b) return [];
    const facts = { file: a, other: b, aim: CAREFUL_LEVEL };
    return [judge('across-files', plan.confidence, { about, spread: undecided(1), limit: 0, facts })];
  });
}

/** Pressures against the pipes' ratings. A pipe without a known rating is not judged. */
function judgePressure(system: SolvedSystem, lines: readonly LineResult[]): Judged[] {
  return lines.flatMap((line) => judgeLine(system, line));
}

/** Output whose spread the pressure of a line has: the level difference that makes it. */
function headOutput({ layout, model }: SolvedSystem, line: LineResult): number {
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

function reachOf(system: SolvedSystem, line: LineResult): Reach {
  const { low, likely, high } = system.known.estimate(headOutput(system, line));
  const temperature = system.site.plan.waterTemperature;
  return { below: pressureOf(likely - low, temperature), above: pressureOf(high - likely, temperature) };
}

/** A pressure that is not below that of the air. */
function around(likely: Pascals, { below, above }: Reach): Spread {
  return spreadOf({ low: Math.max(0, likely - below), likely, high: likely + above });
}

function judgeLine(system: SolvedSystem, line: LineResult): Judged[] {
  if (line.pressure === null || line.rating === null) return [];
  const { confidence, waterTemperature } = system.site.plan;
  const reach = reachOf(system, line);
  const { still, running, blocked } = line.pressure;
  const about = line.id;
  const limit = line.rating;
  const output = headOutput(system, line);
  const found = [
    judge('pipe-pressure', confidence, { about, spread: around(Math.max(still, running), reach), limit, output }),
  ];
  if (line.role === 'drive' || line.role === 'delivery') {
    const wave = pressureOf(waveReach(system), waterTemperature);
    const both = { below: Math.hypot(reach.below, wave), above: Math.hypot(reach.above, wave) };
    const spread = around(blocked, both);
    found.push(judge('blocked-pressure', confidence, { about, spread, limit, facts: { role: line.role }, output }));
  }
  return found;
}

/** The drive pipe: straight, falling all the way, and neither too long nor too short. */
function judgeDrive(system: SolvedSystem): Judged[] {
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
