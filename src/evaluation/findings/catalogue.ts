import type { CriterionId } from '../../handbook/practice-criteria.ts';
import type { QuantityKind } from '../../units/kind.ts';
import type { Bearing } from '../result/evaluation.ts';
import type { Side } from '../statistics/compare.ts';
import type { Verdict } from '../statistics/estimate.ts';

/** What a finding compares, once for the program. The sentences that go with a code live in the report. */
export interface FindingKind {
  readonly bears: Bearing;
  readonly side: Side;
  readonly quantity: QuantityKind;
  /** What is held against the limit, in the trade's words. */
  readonly compares: string;
  /** The published rule that sets the limit; null where the plan itself sets it. */
  readonly criterion: CriterionId | null;
  /** Where the rule comes from when no criterion carries it. */
  readonly source: string;
  /** What it can come out as: what nobody can know from a desk must be measured by its nature. */
  readonly reaches: readonly Verdict[];
}

const DERIVED = 'follows from the plan itself';
const PRACTICE = 'common practice, no source';

const rule = (
  bears: Bearing,
  [side, quantity]: readonly [Side, QuantityKind],
  compares: string,
  from: { readonly criterion?: CriterionId; readonly source?: string; readonly reaches?: readonly Verdict[] } = {},
): FindingKind => ({
  bears,
  side,
  quantity,
  compares,
  criterion: from.criterion ?? null,
  source: from.source ?? DERIVED,
  reaches: from.reaches ?? ['holds', 'measure', 'fails'],
});

/** Something that is not known at all, so that there is nothing to hold against a limit. */
const unknown = (bears: Bearing, [side, quantity]: readonly [Side, QuantityKind], compares: string): FindingKind =>
  rule(bears, [side, quantity], compares, { reaches: ['measure'] });

export const FINDINGS = {
  'ground-unknown': unknown('running', ['at-most', 'length'], 'length of the route over which the DEM has no height'),
  'point-unknown': unknown('running', ['at-most', 'count'], 'whether the DEM has no height under the point'),
  'across-files': unknown(
    'practice',
    ['at-most', 'count'],
    'whether the two heights of a difference come from different files',
  ),
  'reading-contradicts': rule(
    'running',
    ['at-most', 'ratio'],
    'a level reading against what the DEM and the other levels say, in standard deviations',
    { source: PRACTICE, reaches: ['holds', 'measure'] },
  ),
  'line-crosses': rule(
    'practice',
    ['at-most', 'length'],
    'length of the line inside an area that must not be crossed',
    {
      reaches: ['fails'],
    },
  ),
  'yield-unread': unknown('yield', ['at-least', 'count'], 'number of readings of the source'),
  'fall-small': rule('running', ['at-least', 'height'], 'fall while running', { criterion: 'fall-least' }),
  'source-short': rule('running', ['at-least', 'flow'], 'what the source may give against what the pump needs'),
  'supply-short': rule(
    'running',
    ['at-least', 'flow'],
    'what the supply line brings with the inlet covered against what the pump needs',
  ),
  'supply-air': rule('running', ['at-least', 'height'], 'water line of the supply line above its high points'),
  'supply-bore': rule('practice', ['at-least', 'ratio'], 'bore of the supply line over that of the drive pipe', {
    criterion: 'supply-bore-ratio-least',
  }),
  'readings-few': rule('practice', ['at-least', 'count'], 'timings of the source’s flow', {
    criterion: 'readings-least',
    reaches: ['holds', 'fails'],
  }),
  'pump-unchosen': unknown('practice', ['at-least', 'count'], 'whether a pump is chosen'),
  'run-unlike': rule(
    'yield',
    ['at-most', 'count'],
    'measured runs that cannot be of this pump: more water than it takes, a delivery head below the fall, an efficiency that no ram reaches',
    { source: PRACTICE, reaches: ['holds', 'measure'] },
  ),
  'standpipe-low': rule(
    'practice',
    ['at-least', 'height'],
    'top of the standpipe above the highest that the water swings to there',
    {
      criterion: 'standpipe-freeboard-least',
    },
  ),
  'standpipe-place': rule(
    'practice',
    ['at-most', 'length'],
    'distance of the standpipe from the stretch on which it can stand',
    {
      source: 'rules of length of the drive pipe, and the supply line’s loss',
    },
  ),
  'standpipe-nowhere': rule(
    'practice',
    ['at-least', 'length'],
    'by how much the best place for a standpipe keeps the rules',
    {
      source: 'rules of length of the drive pipe, and the supply line’s loss',
    },
  ),
  'drive-rises': rule('running', ['at-most', 'height'], 'how far the ground climbs on the way down the drive pipe', {
    source: PRACTICE,
  }),
  'drive-bent': rule('practice', ['at-most', 'height'], 'ground above or below a straight drive pipe', {
    source: PRACTICE,
  }),
  'drive-plastic': rule('practice', ['at-least', 'velocity'], 'speed of the pressure wave in the drive pipe', {
    criterion: 'drive-wave-speed-least',
  }),
  'pump-bore': rule('practice', ['at-most', 'share'], 'bore of the drive pipe against that of the pump', {
    criterion: 'pump-bore-apart-most',
  }),
  'waste-valve-low': rule('practice', ['at-least', 'height'], 'outlet of the waste valve above the ground', {
    criterion: 'waste-valve-clear-least',
  }),
  'air-ripple': rule('practice', ['at-most', 'share'], 'ripple of the pressure in a beat over the delivery head', {
    criterion: 'air-ripple-most',
  }),
  'frost-depth': rule('practice', ['at-least', 'height'], 'how much deeper than the frost the shallowest line lies', {
    source: 'depth of frost from the cold of the months: Stefan’s square root rule, from memory',
  }),
  'velocity-high': rule('practice', ['at-most', 'velocity'], 'velocity of the water in a plastic line', {
    criterion: 'velocity-most',
  }),
  'drive-length-bore-least': rule('practice', ['at-least', 'ratio'], 'length of the drive pipe in bores', {
    criterion: 'drive-length-bores-least',
  }),
  'drive-length-bore-most': rule('practice', ['at-most', 'ratio'], 'length of the drive pipe in bores', {
    criterion: 'drive-length-bores-most',
  }),
  'drive-length-fall-least': rule('practice', ['at-least', 'ratio'], 'length of the drive pipe in falls', {
    criterion: 'drive-length-falls-least',
  }),
  'drive-length-fall-most': rule('practice', ['at-most', 'ratio'], 'length of the drive pipe in falls', {
    criterion: 'drive-length-falls-most',
  }),
  'back-pressure': rule('running', ['at-least', 'ratio'], 'delivery head with the line full over the running fall', {
    criterion: 'back-pressure-ratio-least',
  }),
  'delivery-head': rule('practice', ['at-least', 'height'], 'delivery head with the line full', {
    criterion: 'delivery-head-least',
    reaches: ['holds', 'measure'],
  }),
  'pump-head': rule(
    'running',
    ['at-least', 'height'],
    'delivery head with the line full against what the pump’s sheet asks for',
    {
      source: 'the sheet of the pump',
    },
  ),
  'lift-over-fall': rule('practice', ['at-most', 'ratio'], 'delivery head over the running fall', {
    criterion: 'lift-over-fall-most',
  }),
  'lift-out-of-reach': rule(
    'running',
    ['at-most', 'height'],
    'delivery head against the highest the pressure wave reaches',
    {
      source: 'Joukowsky: highest head = fall + wave speed × velocity / g',
    },
  ),
  'ram-stops': rule(
    'running',
    ['at-least', 'count'],
    'whether the check valve and the waste valve of a ram described by its parts are quick enough for it to beat',
    {
      source: 'model of the cycle, not validated against a measured ram',
    },
  ),
  'valve-sticks': rule('running', ['at-least', 'height'], 'running fall against the least that lifts the waste valve', {
    source: 'model of the cycle: H = h_w M / K_wv',
  }),
  'valve-stays-shut': rule(
    'running',
    ['at-least', 'height'],
    'delivery head with the line full against what lets the waste valve fall open',
    {
      source: 'model of the cycle: rarefaction after the delivery',
    },
  ),
  'beat-slow': rule('practice', ['at-least', 'count'], 'beats a minute', { criterion: 'beats-least' }),
  'beat-fast': rule('practice', ['at-most', 'count'], 'beats a minute', { criterion: 'beats-most' }),
  siphon: rule(
    'practice',
    ['at-least', 'height'],
    'pressure head at the highest crest with the line full to its outlet',
  ),
  'siphon-breaks': rule(
    'practice',
    ['at-least', 'height'],
    'pressure head at the highest crest against what water stands before it boils',
    {
      source:
        'vapour pressure of the water and air pressure at the crest’s height (ISO 2533), less 3 m for dissolved air (common practice)',
    },
  ),
  'friction-share': rule('practice', ['at-most', 'share'], 'friction of the delivery line over the lift', {
    criterion: 'friction-share-most',
  }),
  'need-unmet': rule('yield', ['at-least', 'daily-volume'], 'delivery a day against the daily need of the herd'),
  'year-short': rule(
    'yield',
    ['at-most', 'count'],
    'days of the year on which the herd gets less from the tank than it wants',
  ),
  'pump-needless': rule('practice', ['at-least', 'height'], 'outlet of the line above the water at the source'),
  'pipe-pressure': rule(
    'safety',
    ['at-most', 'pressure'],
    'highest pressure at rest or running against the rating of the pipe',
  ),
  'pipe-warm': rule(
    'safety',
    ['at-most', 'temperature'],
    'temperature of the water against the last at which the pipe’s material has a rating',
    { source: 'the derating table of the material', reaches: ['fails'] },
  ),
  'blocked-pressure': rule(
    'practice',
    ['at-most', 'pressure'],
    'pressure if the delivery is shut against the rating of the pipe',
    {
      source: 'Joukowsky: peak = wave speed × velocity / g above rest',
    },
  ),
  'trough-dry': rule(
    'yield',
    ['at-least', 'daily-volume'],
    'what the gravity line brings a day against the daily need of the herd',
  ),
  'storage-short': rule('practice', ['at-least', 'duration'], 'days that a full tank lasts the herd', {
    criterion: 'storage-least',
  }),
  'trough-first-hour': rule(
    'practice',
    ['at-least', 'volume'],
    'what a trough holds and gets in an hour against a quarter of the daily need',
    {
      source:
        'ANR-12, Ohio State University Extension, 2003: animals that come together want a quarter of the daily need at once',
    },
  ),
  'gravity-air': rule('running', ['at-least', 'height'], 'water line of the gravity line above its high points'),
} as const satisfies Record<string, FindingKind>;

export type FindingCode = keyof typeof FINDINGS;
