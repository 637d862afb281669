import type { Verdict } from '../../src/evaluation/estimate.ts';
import { evaluate } from '../../src/evaluation/evaluate.ts';
import type { Finding } from '../../src/evaluation/evaluation.ts';
import type { FindingCode } from '../../src/evaluation/findings/catalogue.ts';
import type { HerdGroup, PhysicalRam, Plan, PumpSheet } from '../../src/plan/plan.ts';
import type { HeightAccuracy } from '../../src/terrain/ground.ts';
import { coarse, lidar, madeGround, perfect } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** A plan on its ground, as far as it differs from the one that works. */
export interface Made {
  /** Files that heights come from, by point. */
  readonly files?: Readonly<Record<string, string>>;
  readonly plan?: Plan;
  readonly heights?: Readonly<Record<string, number | null>>;
  readonly lengths?: Readonly<Record<string, number>>;
  readonly accuracy?: HeightAccuracy;
  readonly bumps?: Readonly<Record<string, (share: number) => number | null>>;
}

/** A case of a finding, and what the finding is about where it is judged more than once. */
export interface Case extends Made {
  readonly about?: string;
}

/** Everything that is found of it. */
export function findings(made: Made): readonly Finding[] {
  const plan = made.plan ?? workingPlan;
  const ground = madeGround(plan, {
    heights: { ...workingHeights, ...made.heights },
    lengths: { ...workingLengths, ...made.lengths },
    accuracy: made.accuracy ?? perfect,
    ...(made.bumps && { bumps: made.bumps }),
    ...(made.files && { files: made.files }),
  });
  return evaluate(plan, ground).findings;
}

const withPump = (change: Partial<PumpSheet>, plan = workingPlan): Plan => ({ ...plan, pump: { ...sheet, ...change } });

/** A ram described by its parts, with numbers of the order that the model's check values use. Invented. */
const withRam = (change: Partial<PhysicalRam>): Plan => ({
  ...workingPlan,
  pump: {
    kind: 'ram',
    label: 'invented ram',
    count: 1,
    driveBore: 0.035,
    wasteValveLoss: 6,
    checkValveLoss: 4,
    valveWeightHead: null,
    valveStroke: 0.005,
    checkLag: 0.003,
    airChamber: 0.002,
    measured: null,
    ...change,
  },
});

const withPipe = (id: string, row: string): Plan => ({
  ...workingPlan,
  pipes: workingPlan.pipes.map((p) => (p.id === id ? { id, kind: 'row', row } : p)),
});

const yields = (flow: number, plusMinus: number): Plan => ({
  ...workingPlan,
  dryShare: 1,
  yieldReadings: [{ kind: 'stated', flow: litresPerMinute(flow), plusMinus: litresPerMinute(plusMinus) }],
});

const herdOf = (litres: number): Plan => {
  const herd: HerdGroup[] = [{ kind: 'own', label: 'invented', needPerDay: litres / 1000, count: 1 }];
  return { ...workingPlan, herd };
};

/** A summit of a given height half way along a straight line. */
export const hill = (from: number, to: number, top: number) => (share: number) =>
  from + (to - from) * share + Math.max(0, 1 - Math.abs(share - 0.5) * 40) * (top - (from + to) / 2);

const gap = (share: number) => (share > 0.4 && share < 0.5 ? null : 100 + 23 * share);

/** For every finding, a plan for each thing it can come out as. */
export const CASES: Readonly<Record<FindingCode, Readonly<Partial<Record<Verdict, Case>>>>> = {
  'ground-unknown': { measure: { bumps: { delivery: gap } } },
  'point-unknown': { measure: { heights: { trough: null }, about: 'trough' } },
  'across-files': { measure: { files: { spring: 'west.tif', ram: 'east.tif' }, about: 'spring' } },
  'yield-unread': { measure: { plan: { ...workingPlan, yieldReadings: [] } } },
  'fall-small': {
    holds: {},
    measure: { heights: { spring: 100.75 }, accuracy: lidar },
    fails: { heights: { spring: 100.5 } },
  },
  'source-short': { holds: {}, measure: { plan: yields(10.5, 2) }, fails: { plan: yields(6, 1) } },
  'supply-short': {
    holds: {},
    measure: { heights: { standpipe: 104.03 }, accuracy: lidar },
    fails: { heights: { standpipe: 104.2 } },
  },
  'supply-air': {
    holds: { bumps: { supply: hill(104.5, 103.4, 104.35) } },
    measure: { bumps: { supply: hill(104.5, 103.4, 104.46) }, accuracy: lidar },
    fails: { bumps: { supply: hill(104.5, 103.4, 105.2) } },
  },
  'supply-bore': {
    holds: {},
    measure: { plan: withPipe('pe63', 'pe100-sdr13.6-50') },
    fails: { plan: withPipe('pe63', 'pe100-sdr11-40') },
  },
  'standpipe-low': {
    holds: {},
    measure: { heights: { standpipe: 102.65 }, accuracy: lidar },
    fails: { heights: { standpipe: 102.3 } },
  },
  'standpipe-place': {
    holds: {},
    measure: { lengths: { drive: 21, supply: 69 } },
    fails: { lengths: { drive: 70, supply: 30 } },
  },
  // A spring box so near the surface that no inlet on the way is ever covered.
  'standpipe-nowhere': {
    holds: {},
    measure: { heights: { standpipe: 104.1, ram: 104, spring: 104.5 }, accuracy: lidar },
    fails: { heights: { standpipe: 104.4, ram: 104.3, spring: 104.5 } },
  },
  'drive-rises': {
    holds: {},
    measure: { bumps: { drive: hill(103.4, 100, 102.0) }, accuracy: lidar },
    fails: { bumps: { drive: hill(103.4, 100, 103) } },
  },
  'drive-length-bore-least': {
    holds: { lengths: { drive: 8 } },
    measure: { lengths: { drive: 4.2 } },
    fails: { lengths: { drive: 1.6 } },
  },
  'drive-length-bore-most': {
    holds: {},
    measure: { lengths: { drive: 34.5 } },
    fails: { lengths: { drive: 45 } },
  },
  'drive-length-fall-least': {
    holds: { lengths: { drive: 25 } },
    measure: { lengths: { drive: 21 }, accuracy: lidar },
    fails: { lengths: { drive: 15 } },
  },
  'drive-length-fall-most': {
    holds: {},
    measure: { lengths: { drive: 42.5 }, accuracy: lidar },
    fails: { lengths: { drive: 60 } },
  },
  'back-pressure': {
    holds: {},
    measure: { heights: { tank: 106.7 }, lengths: { delivery: 20 }, accuracy: lidar },
    fails: { heights: { tank: 105 }, lengths: { delivery: 20 } },
  },
  'delivery-head': {
    holds: {},
    measure: { heights: { tank: 105.1 }, lengths: { delivery: 20 }, accuracy: lidar },
    fails: { heights: { tank: 104 }, lengths: { delivery: 20 } },
  },
  'lift-over-fall': {
    holds: {},
    measure: { heights: { tank: 149.1 }, lengths: { delivery: 60 }, accuracy: lidar },
    fails: { heights: { tank: 190 } },
  },
  'lift-out-of-reach': {
    holds: {},
    measure: { plan: withPipe('steel', 'pe100-sdr11-40'), heights: { tank: 128 }, accuracy: coarse },
    fails: { plan: withPipe('steel', 'pe100-sdr11-40'), heights: { tank: 160 } },
  },
  'ram-stops': {
    holds: { plan: withRam({}) },
    // A check valve so late that a good part of what went out comes back; a lag no valve has.
    measure: { plan: withRam({ checkLag: 0.2 }), accuracy: coarse },
    fails: { plan: withRam({ checkLag: 0.3 }) },
  },
  'valve-sticks': {
    holds: { plan: withRam({ valveWeightHead: 0.4 }) },
    measure: { plan: withRam({ valveWeightHead: 0.7 }), accuracy: coarse },
    fails: { plan: withRam({ valveWeightHead: 1 }) },
  },
  'valve-stays-shut': {
    holds: { plan: withRam({ valveWeightHead: 0.4 }) },
    measure: {
      plan: withRam({ valveWeightHead: 0.4 }),
      heights: { tank: 104.4 },
      lengths: { delivery: 20 },
      accuracy: coarse,
    },
    fails: { plan: withRam({ valveWeightHead: 0.4 }), heights: { tank: 103 }, lengths: { delivery: 20 } },
  },
  'beat-slow': {
    holds: { plan: withRam({}) },
    measure: { plan: withRam({}), lengths: { drive: 60 } },
    fails: { plan: withRam({}), lengths: { drive: 150 } },
  },
  'beat-fast': {
    holds: { plan: withRam({}) },
    measure: { plan: withRam({}), lengths: { drive: 17 } },
    fails: { plan: withRam({}), lengths: { drive: 6 } },
  },
  siphon: {
    holds: { bumps: { delivery: hill(100, 123, 122) } },
    measure: { bumps: { delivery: hill(100, 123, 125.1) }, accuracy: lidar },
    fails: { bumps: { delivery: hill(100, 123, 140) } },
  },
  'siphon-breaks': {
    holds: { bumps: { delivery: hill(100, 123, 127) } },
    measure: { bumps: { delivery: hill(100, 123, 132.0) }, accuracy: coarse },
    fails: { bumps: { delivery: hill(100, 123, 140) } },
  },
  'friction-share': {
    holds: {},
    measure: { plan: withPipe('pe25', 'pe100-sdr7.4-16'), lengths: { delivery: 280 } },
    fails: { plan: withPipe('pe25', 'pe100-sdr7.4-16'), lengths: { delivery: 1200 } },
  },
  'need-unmet': { holds: {}, measure: { plan: herdOf(2200) }, fails: { plan: herdOf(5000) } },
  'pump-needless': {
    holds: { about: 'tank' },
    measure: { heights: { tank: 102.45 }, accuracy: lidar, about: 'tank' },
    fails: { heights: { tank: 101 }, about: 'tank' },
  },
  'pipe-pressure': {
    holds: { about: 'delivery' },
    measure: {
      plan: withPipe('pe25', 'pe100-sdr11-25'),
      heights: { tank: 260.6 },
      accuracy: coarse,
      about: 'delivery',
    },
    fails: { heights: { tank: 290 }, about: 'delivery' },
  },
  'blocked-pressure': {
    holds: { about: 'delivery' },
    measure: {
      plan: withPump({ intakeLeast: litresPerMinute(18), intakeSet: litresPerMinute(33) }),
      accuracy: coarse,
      about: 'delivery',
    },
    fails: { plan: withPump({ intakeLeast: litresPerMinute(18), intakeSet: litresPerMinute(80) }), about: 'delivery' },
  },
  'trough-dry': {
    holds: {},
    measure: {
      plan: withPipe('pe25', 'pe100-sdr7.4-16'),
      heights: { trough: 112.5 },
      lengths: { gravity: 3000 },
      accuracy: lidar,
    },
    fails: { plan: withPipe('pe25', 'pe100-sdr7.4-16'), heights: { trough: 122.59 }, lengths: { gravity: 3000 } },
  },
  'storage-short': { holds: {}, measure: { plan: herdOf(1650) }, fails: { plan: herdOf(4000) } },
  'trough-first-hour': {
    holds: {},
    measure: { plan: herdOf(8000), accuracy: coarse },
    fails: { plan: herdOf(80000) },
  },
  'gravity-air': {
    holds: { bumps: { gravity: hill(123, 118, 122) }, heights: { trough: 121 } },
    measure: { heights: { trough: 120 }, bumps: { gravity: hill(123, 120, 121.9) }, accuracy: lidar },
    fails: { bumps: { gravity: hill(123, 118, 126) } },
  },
};
