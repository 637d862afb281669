import { evaluate, evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
import type { FindingCode } from '../../src/evaluation/findings/catalogue.ts';
import type { Evaluation, Finding } from '../../src/evaluation/result/evaluation.ts';
import type { Verdict } from '../../src/evaluation/statistics/estimate.ts';
import type { HerdGroup, MeasuredRun, PhysicalRam, Plan, PlanArea } from '../../src/plan/model/plan.ts';
import type { HeightAccuracy } from '../../src/terrain/grid/ground.ts';
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
  /** What cannot but be found besides. */
  readonly also?: readonly FindingCode[];
}

/** It evaluated: to first order, or by so many draws. */
export function evaluated(made: Made, draws = 0): Evaluation {
  const plan = made.plan ?? workingPlan;
  const ground = madeGround(plan, {
    heights: { ...workingHeights, ...made.heights },
    lengths: { ...workingLengths, ...made.lengths },
    accuracy: made.accuracy ?? perfect,
    ...(made.bumps && { bumps: made.bumps }),
    ...(made.files && { files: made.files }),
  });
  return draws === 0 ? evaluate(plan, ground) : evaluateDrawn(plan, ground, { count: draws, seed: 1 });
}

/** Everything that is found of it. */
export const findings = (made: Made, draws = 0): readonly Finding[] => evaluated(made, draws).findings;

/** A ram described by its parts at a good source, with numbers of the order that the model's check values use. Invented. */
const withRam = (change: Partial<PhysicalRam>): Plan => ({
  ...workingPlan,
  yieldReadings: [{ kind: 'stated', flow: litresPerMinute(60), plusMinus: litresPerMinute(6) }],
  dryShare: 1,
  pipes: workingPlan.pipes.map((p) => (p.id === 'pe25' ? { id: 'pe25', kind: 'row', row: 'pe100-sdr7.4-32' } : p)),
  pump: {
    kind: 'ram',
    label: 'invented ram',
    count: 1,
    driveBore: 0.035,
    wasteValveLoss: 6,
    checkValveLoss: 4,
    valveWeightHead: 0.2,
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

/** One line laid in a pipe of its own: a row of the handbook, or a made pipe with its rating. */
export const lineIn = (
  line: string,
  pipe:
    | { readonly row: string }
    | { readonly rating: number; readonly bore?: number; readonly material?: 'steel'; readonly wall?: number },
  plan = workingPlan,
): Plan => ({
  ...plan,
  pipes: [
    ...plan.pipes.filter(({ id }) => id !== 'other'),
    'row' in pipe ? { id: 'other', kind: 'row', ...pipe } : { ...made, ...pipe },
  ],
  routes: plan.routes.map((r) => (r.id === line ? { ...r, pipe: 'other' } : r)),
});

const made = {
  id: 'other',
  kind: 'own',
  label: 'invented',
  material: 'pe',
  bore: 0.0204,
  wall: 0.0023,
  roughness: 1.5e-6,
} as const;

/** The same plan without its trough. */
const noTrough = (plan: Plan): Plan => ({
  ...plan,
  points: plan.points.filter(({ role }) => role !== 'trough'),
  routes: plan.routes.filter(({ role }) => role !== 'gravity'),
});

/** The same plan with the drive pipe straight from the source. */
const noStandpipe = (plan: Plan): Plan => ({
  ...plan,
  points: plan.points.filter(({ role }) => role !== 'standpipe'),
  routes: plan.routes.flatMap((r) => (r.role === 'supply' ? [] : [r.role === 'drive' ? { ...r, from: 'spring' } : r])),
});

/** The same plan with other vessels. */
const holding = (volumes: { readonly tank?: number; readonly trough?: number }, plan = workingPlan): Plan => ({
  ...plan,
  points: plan.points.map((p) =>
    p.role === 'tank' || p.role === 'trough' ? { ...p, volume: volumes[p.role] ?? p.volume } : p,
  ),
});

const yields = (flow: number, plusMinus: number): Plan => ({
  ...workingPlan,
  dryShare: 1,
  yieldReadings: [{ kind: 'stated', flow: litresPerMinute(flow), plusMinus: litresPerMinute(plusMinus) }],
});

export const herdOf = (litres: number, plan = workingPlan): Plan => {
  const herd: HerdGroup[] = [{ kind: 'own', label: 'invented', needPerDay: litres / 1000, count: 1 }];
  return { ...plan, herd };
};

const timed = (times: readonly number[]): Plan => ({
  ...workingPlan,
  yieldReadings: [{ kind: 'timed', volume: 0.005, volumePlusMinus: 0.0001, times }],
});

const withBore = (driveBore: number): Plan => ({ ...workingPlan, pump: { ...sheet, driveBore } });
const leastHead = (leastDeliveryHead: number): Plan => ({ ...workingPlan, pump: { ...sheet, leastDeliveryHead } });

const wasteValveAt = (height: number): Plan => ({
  ...workingPlan,
  points: workingPlan.points.map((p) => (p.role === 'pump' ? { ...p, wasteValveHeight: height } : p)),
});

/** A year with one cold month. */
const winterOf = (airTemperature: number): Plan => ({
  ...workingPlan,
  year: Array.from({ length: 12 }, (_, month) => ({
    season: 'winter',
    airTemperature: month === 0 ? airTemperature : 10,
    sourceShare: null,
  })),
});

/** Ground that sags below the straight line, most in the middle. */
const sagging = (from: number, to: number, deep: number) => (share: number) =>
  from + (to - from) * share - 4 * deep * share * (1 - share);

/** A summit of a given height half way along a straight line. */
export const hill = (from: number, to: number, top: number) => (share: number) =>
  from + (to - from) * share + Math.max(0, 1 - Math.abs(share - 0.5) * 40) * (top - (from + to) / 2);

/** A strip across the delivery line of the working plan, from west to east, without a gate. */
const across: PlanArea = {
  id: 'road',
  name: 'road',
  note: '',
  outline: [
    { lon: -40, lat: 38.0013 },
    { lon: -39.9, lat: 38.0013 },
    { lon: -39.9, lat: 38.0014 },
    { lon: -40, lat: 38.0014 },
  ],
  gates: [],
};

const gap = (share: number) => (share > 0.4 && share < 0.5 ? null : 100 + 23 * share);

/** Level ground from the spring to just before the standpipe, then a drop. */
export const shelf = (level: number) => (share: number) =>
  share < 0.92 ? level : level - ((level - 103.4) * (share - 0.92)) / 0.08;

/** A low place: half a metre of fall, or about. */
/** A year in whose August the source gives such a share of what was read. */
const yearWith = (sourceShare: number): Plan => ({
  ...workingPlan,
  year: Array.from({ length: 12 }, (_, m) => ({
    season: 'summer' as const,
    airTemperature: null,
    sourceShare: m === 7 ? sourceShare : 1,
  })),
});
/** The pump was measured near where it is to work. */
const withRun = (run: Partial<MeasuredRun>): Plan => ({
  ...workingPlan,
  pump: {
    ...sheet,
    measured: { driveFlow: litresPerMinute(20), delivery: litresPerMinute(1.6), fall: 4, deliveryHead: 25, ...run },
  },
});
/** The fall levelled to ±5 cm. */
const levelled = (rise: number): Plan => ({
  ...workingPlan,
  measurements: [{ kind: 'difference', from: 'spring', to: 'ram', rise, plusMinus: 0.05 }],
});
const lowFall = { standpipe: 100 };

/** A little more than 1 m of fall with a tank just above. */
const shortDrive = { spring: 101, tank: 106 };

/** 2.8 m of fall: the rule of the delivery head binds before that of back pressure. */
const lowHead = { spring: 103, standpipe: 101.9 };

/** 1.6 m of fall and a tank far above; hardly anything arrives and nobody needs it. */
const smallFall = { spring: 102, standpipe: 101.1 };
const smallLengths = { supply: 20, drive: 12, delivery: 60 };
const highTank: Plan = { ...noTrough(workingPlan), herd: [] };

/** A stiff enough line to a low tank. */
const shortLine = { delivery: 20 };

/** For every finding, a plan for each thing it can come out as. */
export const CASES: Readonly<Record<FindingCode, Readonly<Partial<Record<Verdict, Case>>>>> = {
  'ground-unknown': { measure: { bumps: { delivery: gap } } },
  'point-unknown': { measure: { heights: { trough: null }, about: 'trough' } },
  'across-files': { measure: { files: { spring: 'west.tif', ram: 'east.tif' }, about: 'spring' } },
  'run-unlike': {
    holds: { plan: withRun({ delivery: litresPerMinute(1.6) }) },
    measure: { plan: withRun({ delivery: litresPerMinute(1.6), driveFlow: litresPerMinute(60), fall: 2 }) },
  },
  'reading-contradicts': { holds: { plan: levelled(-4.52) }, measure: { plan: levelled(-5.5), about: 'ram' } },
  'line-crosses': { fails: { plan: { ...workingPlan, areas: [across] } } },
  'yield-unread': { measure: { plan: { ...workingPlan, yieldReadings: [] } } },
  'fall-small': {
    holds: {},
    measure: { plan: herdOf(60), heights: { ...lowFall, spring: 100.75 }, accuracy: lidar },
    fails: { plan: herdOf(60), heights: { ...lowFall, spring: 100.62 } },
  },
  'source-short': { holds: {}, measure: { plan: yields(10.5, 2) }, fails: { plan: yields(6, 1) } },
  'supply-short': {
    holds: {},
    measure: { plan: herdOf(300), heights: { standpipe: 104.03 }, accuracy: lidar },
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
  // Too near for its length, and further up the inlet would not be covered.
  'standpipe-nowhere': {
    holds: {},
    measure: { lengths: { drive: 12 }, bumps: { supply: shelf(103.9) }, accuracy: lidar },
    fails: { lengths: { drive: 12 }, bumps: { supply: shelf(104.2) } },
  },
  'readings-few': {
    holds: { plan: timed([15, 15.2, 14.9]) },
    fails: { plan: timed([15, 15.1]) },
  },
  'pump-unchosen': { measure: { plan: { ...workingPlan, pump: null } } },
  // Half way down straight ground lies at 101.7 m, just before the hill at 101.8 m.
  'drive-rises': {
    holds: {},
    measure: { bumps: { drive: hill(103.4, 100, 102.09) }, accuracy: lidar },
    fails: { bumps: { drive: hill(103.4, 100, 103) } },
  },
  'drive-bent': {
    holds: {},
    measure: { bumps: { drive: sagging(103.4, 100, 0.31) }, accuracy: lidar },
    fails: { bumps: { drive: sagging(103.4, 100, 0.8) } },
  },
  'drive-plastic': {
    holds: {},
    measure: { plan: lineIn('drive', { rating: 40e5, bore: 0.035, material: 'steel', wall: 0.00028 }) },
    fails: { plan: { ...withPipe('steel', 'pe100-sdr11-40'), herd: [] } },
  },
  'pump-bore': {
    holds: {},
    measure: { plan: lineIn('drive', { rating: 40e5, bore: 0.0402, material: 'steel', wall: 0.003 }) },
    fails: { plan: withBore(0.05) },
  },
  'waste-valve-low': {
    holds: {},
    measure: { plan: wasteValveAt(0.1) },
    fails: { plan: wasteValveAt(0) },
  },
  'air-ripple': {
    holds: { plan: withRam({}) },
    measure: { plan: withRam({ airChamber: 0.00076 }) },
    fails: { plan: withRam({ airChamber: 0.00005 }) },
  },
  'frost-depth': {
    holds: { plan: winterOf(-0.1) },
    measure: { plan: winterOf(-0.75) },
    fails: { plan: winterOf(-12) },
  },
  'velocity-high': {
    holds: { about: 'delivery' },
    measure: { heights: { trough: 110.3 }, about: 'gravity' },
    fails: { heights: { trough: 105 }, about: 'gravity' },
  },
  'pump-head': {
    holds: { plan: leastHead(10) },
    measure: { plan: leastHead(25), accuracy: coarse },
    fails: { plan: leastHead(40) },
  },
  'drive-length-bore-least': {
    holds: { lengths: { drive: 8 } },
    measure: {
      plan: noTrough(noStandpipe(withPipe('steel', 'steel-sch40-2in'))),
      heights: shortDrive,
      lengths: { drive: 7.5 },
    },
    fails: {
      plan: herdOf(
        60,
        noTrough(noStandpipe({ ...withPipe('steel', 'steel-sch40-2in'), pump: { ...sheet, driveBore: 0.0525 } })),
      ),
      heights: shortDrive,
      lengths: { drive: 4.5 },
    },
  },
  'drive-length-bore-most': {
    holds: {},
    measure: { plan: noStandpipe(workingPlan), lengths: { drive: 34.5 } },
    fails: { plan: noStandpipe(workingPlan), lengths: { drive: 40 } },
  },
  'drive-length-fall-least': {
    holds: { lengths: { drive: 25 } },
    measure: { plan: noStandpipe(workingPlan), lengths: { drive: 21 }, accuracy: lidar },
    fails: { plan: noStandpipe(workingPlan), lengths: { drive: 15 } },
  },
  'drive-length-fall-most': {
    holds: {},
    measure: { plan: noStandpipe(workingPlan), heights: { spring: 103.3 }, lengths: { drive: 30.5 }, accuracy: lidar },
    fails: { plan: herdOf(200, noStandpipe(workingPlan)), heights: { spring: 102.7 }, lengths: { drive: 32 } },
  },
  'back-pressure': {
    holds: {},
    measure: { plan: noTrough(workingPlan), heights: { tank: 105 }, lengths: shortLine, accuracy: lidar },
    fails: {
      plan: lineIn('delivery', { rating: 40e5, bore: 0.05 }, noTrough(workingPlan)),
      heights: { tank: 102.55 },
      lengths: shortLine,
    },
  },
  'delivery-head': {
    holds: {},
    measure: {
      plan: noTrough(workingPlan),
      heights: { ...lowHead, tank: 105.2 },
      lengths: { ...shortLine, drive: 20 },
      accuracy: lidar,
    },
  },
  'lift-over-fall': {
    holds: {},
    measure: { plan: highTank, heights: { ...smallFall, tank: 144.6 }, lengths: smallLengths, accuracy: lidar },
    fails: { plan: highTank, heights: { ...smallFall, tank: 165 }, lengths: smallLengths },
  },
  'lift-out-of-reach': {
    holds: {},
    measure: { plan: withPipe('steel', 'pe100-sdr11-40'), heights: { tank: 128 } },
    fails: { plan: noTrough(withPipe('steel', 'pe100-sdr11-40')), heights: { tank: 160 } },
  },
  'ram-stops': {
    holds: { plan: withRam({}) },
    // A check valve so late that a good part of what went out comes back; a lag no valve has.
    measure: { plan: withRam({ checkLag: 0.12 }), accuracy: lidar },
    fails: { plan: withRam({ checkLag: 0.3 }) },
  },
  'valve-sticks': {
    holds: { plan: withRam({}) },
    measure: { plan: withRam({ valveWeightHead: 0.72 }) },
    fails: { plan: withRam({ valveWeightHead: 1 }) },
  },
  // An ideal check valve: nothing comes back before it shuts.
  'valve-stays-shut': {
    holds: { plan: withRam({}) },
    measure: {
      plan: noTrough(withRam({ valveWeightHead: 0.4, checkLag: 0 })),
      heights: { tank: 106.4 },
      lengths: shortLine,
      accuracy: lidar,
    },
    fails: { plan: noTrough(withRam({ checkLag: 0 })), heights: { tank: 104 }, lengths: shortLine },
  },
  'beat-slow': {
    holds: { plan: withRam({}) },
    measure: { plan: withRam({ valveWeightHead: 0.4 }) },
    fails: { plan: withRam({ valveWeightHead: 0.6, airChamber: 0.01 }) },
  },
  'beat-fast': {
    holds: { plan: withRam({}) },
    measure: { plan: withRam({ valveWeightHead: 0.1 }), lengths: { drive: 22 } },
    fails: { plan: withRam({ valveWeightHead: 0.05 }), lengths: { drive: 22 } },
  },
  siphon: {
    holds: { bumps: { delivery: hill(100, 123, 122) } },
    measure: { bumps: { delivery: hill(100, 123, 125.1) }, accuracy: lidar },
    fails: { bumps: { delivery: hill(100, 123, 128) } },
  },
  'siphon-breaks': {
    holds: { bumps: { delivery: hill(100, 123, 127) } },
    measure: { bumps: { delivery: hill(100, 123, 132.2) }, accuracy: { ...lidar, nugget: 0.1 } },
    fails: { plan: herdOf(300), bumps: { delivery: hill(100, 123, 140) } },
  },
  'friction-share': {
    holds: {},
    measure: { plan: lineIn('delivery', { row: 'pe100-sdr7.4-16' }), lengths: { delivery: 280 } },
    fails: { plan: lineIn('delivery', { row: 'pe100-sdr7.4-16' }), lengths: { delivery: 1200 } },
  },
  'need-unmet': {
    holds: {},
    measure: { plan: herdOf(2200, holding({ tank: 50 })) },
    fails: { plan: herdOf(5000, holding({ tank: 50 })) },
  },
  'year-short': {
    holds: { plan: yearWith(1) },
    measure: { plan: yearWith(0.54), accuracy: lidar },
    fails: { plan: yearWith(0.2) },
  },
  'pump-needless': {
    holds: { about: 'tank' },
    // A tank level with the source pushes back with no more than the fall.
    measure: {
      plan: noTrough(workingPlan),
      heights: { tank: 102.45 },
      lengths: shortLine,
      accuracy: lidar,
      about: 'tank',
      also: ['back-pressure'],
    },
    fails: { plan: noTrough(workingPlan), heights: { tank: 101 }, about: 'tank' },
  },
  'pipe-pressure': {
    holds: { about: 'delivery' },
    measure: { plan: lineIn('delivery', { rating: 2.45e5 }), accuracy: coarse, about: 'delivery' },
    fails: { plan: lineIn('delivery', { rating: 2e5 }), about: 'delivery' },
  },
  'pipe-warm': {
    fails: { plan: { ...workingPlan, waterTemperature: 45 }, about: 'delivery', also: ['pipe-warm', 'pipe-warm'] },
  },
  'blocked-pressure': {
    holds: { about: 'delivery' },
    measure: { plan: lineIn('delivery', { rating: 10e5 }), about: 'delivery' },
    fails: { plan: lineIn('delivery', { rating: 6e5 }), about: 'delivery' },
  },
  'trough-dry': {
    holds: {},
    measure: {
      plan: lineIn('gravity', { row: 'pe100-sdr7.4-16' }),
      heights: { trough: 112.5 },
      lengths: { gravity: 3000 },
      accuracy: lidar,
    },
    fails: {
      plan: lineIn('gravity', { row: 'pe100-sdr7.4-16' }),
      heights: { trough: 122.59 },
      lengths: { gravity: 3000 },
    },
  },
  'storage-short': {
    holds: {},
    measure: { plan: holding({ tank: 2.25 }) },
    fails: { plan: holding({ tank: 1 }) },
  },
  'trough-first-hour': {
    holds: {},
    measure: {
      plan: holding({ trough: 0.13 }, lineIn('gravity', { row: 'pe100-sdr7.4-16' })),
      lengths: { gravity: 800 },
    },
    fails: {
      plan: holding({ trough: 0.05 }, lineIn('gravity', { row: 'pe100-sdr7.4-16' })),
      lengths: { gravity: 800 },
    },
  },
  'gravity-air': {
    holds: { bumps: { gravity: hill(123, 118, 122) }, heights: { trough: 121 } },
    measure: { heights: { trough: 120 }, bumps: { gravity: hill(123, 120, 121.9) }, accuracy: lidar },
    fails: { bumps: { gravity: hill(123, 118, 126) } },
  },
};
