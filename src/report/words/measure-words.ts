import type { DeliveryResult, MeasureFirst } from '../../evaluation/result/evaluation.ts';
import type { Closing, KnownHeight, LevelLeg } from '../../evaluation/site/level-book.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Measurement, Plan, PlanPoint, PointId } from '../../plan/model/plan.ts';
import { FOOT_M, INCH_M } from '../../units/factor.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import type { Metres } from '../../units/quantity.ts';
import { writeEntered, writeQuantity, writeRange } from '../../units/write-quantity.ts';

/** One thing to measure on site: what, how well, and what is thought of it now. */
export interface MeasureWords {
  readonly title: string;
  /** Null when any reading helps. */
  readonly aim: string | null;
  readonly expected: string | null;
}

const TITLES: Readonly<Record<string, (about: string, from: string) => string>> = {
  fall: (about, from) => `Measure the fall: how far ${about} is below ${from}`,
  'standpipe-level': (about, from) => `Measure how far ${about} is below ${from}`,
  lift: (about, from) => `Measure the lift: how far ${about} is above ${from}`,
  'summit-level': (about, from) => `Measure how high the high point of ${about} is against ${from}`,
  'trough-level': (about, from) => `Measure how far ${about} is below ${from}`,
  'source-yield': (about) => `Do a bucket test at ${about}`,
  'pump-efficiency': () => 'Measure what the pump uses and what it delivers',
  'drive-length': (about) => `Measure the length of ${about} along the ground`,
  'drive-line': (about) => `Stretch a string along ${about} and measure where the ground stands above it`,
  'pipe-wall': (about) => `Find out the material and the wall thickness of ${about}`,
  'valve-height': (about) =>
    `See how high the waste valve of ${about} stands above the ground, and where its water runs`,
  'gauge-swing': (about) => `Read how far the gauge swings at ${about}`,
  'frost-depth': (about) => `Ask locally how deep the frost goes at ${about}`,
  'pump-back-pressure': (about) => `Ask the maker, or try, what back pressure ${about} needs`,
  bores: (about) => `Measure the bores of ${about} and of the drive pipe`,
  'tank-volume': (about) => `Measure what ${about} holds`,
  'line-flow': (about) => `Do a bucket test at ${about} once its line is laid`,
  beats: (about) => `Count the beats of ${about} over a minute`,
  ground: (about) => `Measure the height of ${about}: the elevation file has none there`,
};

export function measureWords(item: MeasureFirst, plan: Plan, units: UnitSystem): MeasureWords {
  const title = TITLES[item.quantity];
  if (title === undefined)
    throw new Error(`found quantity ${item.quantity}, expected one of ${Object.keys(TITLES).join(', ')}`);
  const { aim, expected, unit } = item;
  return {
    title: title(nameOf(plan, item.about), fromWords(plan, item)),
    aim: aim === null ? null : `to within ${aimWords(item, aim, units)}`,
    expected: expected === null ? null : expectedWords(item.quantity, expected, unit, units),
  };
}

/** Where a level is taken from: the point that the plan judges it by; null where it is the height itself. */
export function measuredFrom(
  plan: Plan,
  { quantity, about }: Pick<MeasureFirst, 'quantity' | 'about'>,
): PointId | null {
  const first = (role: PlanPoint['role']) => plan.points.find((point) => point.role === role)?.id ?? null;
  const route = plan.routes.find(({ id }) => id === about);
  switch (quantity) {
    case 'fall':
    case 'standpipe-level':
      return first('source');
    case 'lift':
      return first('pump');
    case 'trough-level':
      return plan.routes.find(({ to }) => to === about)?.from ?? null;
    case 'summit-level':
      return route?.role === 'gravity' ? route.from : route?.role === 'supply' ? first('source') : first('pump');
    default:
      return null;
  }
}

const fromWords = (plan: Plan, item: MeasureFirst): string => {
  const from = measuredFrom(plan, item);
  return from === null ? 'what feeds it' : nameOf(plan, from);
};

/** Steps to which people measure with tape, level or hose, m; common practice, no source. */
const STEPS: Readonly<Record<UnitSystem, readonly number[]>> = {
  metric: [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5],
  us: [1, 2, 3, 6, 12, 24, 60, 120].map((inches) => inches * INCH_M),
};
/** Nobody is asked for less than this share of what is measured: a fall to within a tenth of it. */
const LEAST_EXACTNESS = 0.1;

/** A bucket and a watch tell no flow better than this. Common practice, no source. */
const FINEST_SHARE = 0.02;

/** How well to measure, as one would say it: heights and lengths to a step of the tape, a flow to a share of it, all else to two figures. */
function aimWords({ unit, expected }: MeasureFirst, aim: number, units: UnitSystem): string {
  if (unit === 'flow' && expected !== null && expected.likely > 0) {
    return writeQuantity(Math.max(FINEST_SHARE, Math.round((100 * aim) / expected.likely) / 100), 'share', units);
  }
  if (unit !== 'height' && unit !== 'length') return writeEntered(Number(aim.toPrecision(2)), unit, units);
  const most = Math.min(aim, expected === null ? aim : LEAST_EXACTNESS * Math.abs(expected.likely));
  const steps = STEPS[units];
  return writeEntered(steps.findLast((step) => step <= most * 1.0001) ?? steps[0] ?? aim, unit, units);
}

/** Levels that are asked for as so much below another place, and those as so much above it. */
const BELOW: ReadonlySet<string> = new Set(['fall', 'standpipe-level', 'trough-level']);
const ABOVE: ReadonlySet<string> = new Set(['lift', 'summit-level']);

/** What is thought of a quantity now; a level on the side that is asked for is told without a sign. */
function expectedWords(quantity: string, { low, high }: Estimate, unit: QuantityKind, units: UnitSystem): string {
  const write = (from: number, to: number) => writeRange(from, to, unit, units);
  if (!BELOW.has(quantity) && !ABOVE.has(quantity)) return write(low, high);
  const down = BELOW.has(quantity);
  if (high < 0) return `${write(-high, -low)}${down ? '' : ' lower'}`;
  if (low >= 0) return `${write(low, high)}${down ? ' higher' : ''}`;
  return `anything from ${writeQuantity(-low, unit, units)} lower to ${writeQuantity(high, unit, units)} higher`;
}

/** The name of a point or route of the plan; its id when it has none. */
export function nameOf(plan: Plan, id: string): string {
  const found = plan.points.find((point) => point.id === id) ?? plan.routes.find((route) => route.id === id);
  return found === undefined || found.name === '' ? id : found.name;
}

/** An estimate for reading: its likely value, and its low and high as a range; null where the two say the same. */
interface EstimateWords {
  readonly likely: string;
  readonly range: string | null;
}

export function estimateWords(estimate: Estimate, kind: QuantityKind, units: UnitSystem): EstimateWords {
  const range = writeRange(estimate.low, estimate.high, kind, units);
  const likely = writeQuantity(estimate.likely, kind, units);
  return { likely, range: range === likely ? null : range };
}

/** What sets the height that the pump must lift to. */
export function governedWords(governedBy: DeliveryResult['governedBy'], units: UnitSystem): string {
  if (governedBy === 'outlet') return 'to its inlet';
  return `over a high point at ${writeQuantity(governedBy.summit, 'length', units)}`;
}

/** A height measured on site in one line. */
export function measurementWords(taken: Measurement, plan: Plan, units: UnitSystem): string {
  const spread = `±${writeEntered(taken.plusMinus, 'height', units)}`;
  if (taken.kind === 'height') {
    return `${nameOf(plan, taken.point)}: ground ${writeEntered(taken.height, 'height', units)} above sea level, ${spread}`;
  }
  const way = taken.rise < 0 ? 'lower' : 'higher';
  const rise = writeEntered(Math.abs(taken.rise), 'height', units);
  return `${nameOf(plan, taken.to)}: ground ${rise} ${way} than at ${nameOf(plan, taken.from)}, ${spread}`;
}

/** A height as a staff is read: millimetres, or hundredths of a foot. */
export function staffWords(value: Metres, units: UnitSystem): string {
  return units === 'us' ? `${(value / FOOT_M).toFixed(2)}\u202fft` : `${value.toFixed(3)}\u202fm`;
}

/** How a level book closes. */
export function closingWords(closing: Closing | null, units: UnitSystem): string {
  if (closing === null) {
    return 'The book does not come back to a point that it began at, so nothing says how well it was read. Level back to the first point where you can.';
  }
  const { error, setups, allowed, holds } = closing;
  const told = `It closes with ${staffWords(Math.abs(error), units)} over ${setups} stands of the level`;
  return holds
    ? `${told}: as careful readings do (up to ${staffWords(allowed, units)}).`
    : `${told}: careful readings leave ${staffWords(allowed, units)} at most. Look for a wrong reading; taken as it is, every level is believed less.`;
}

/** A stretch of a book in one line. */
export function legWords({ from, to, rise, plusMinus }: LevelLeg, plan: Plan, units: UnitSystem): string {
  const way = rise < 0 ? 'below' : 'above';
  return `${nameOf(plan, to)}: ${staffWords(Math.abs(rise), units)} ${way} ${nameOf(plan, from)} ±${staffWords(plusMinus, units)}`;
}

/** What is known of a point's ground before and after a book. */
export function heightChangeWords(
  { before, after }: { readonly before: KnownHeight | undefined; readonly after: KnownHeight },
  units: UnitSystem,
): string {
  const known = ({ ground, plusMinus }: KnownHeight) =>
    `${groundWords(ground, units)} ±${groundWords(plusMinus, units)}`;
  return before === undefined ? known(after) : `${known(after)} (before: ${known(before)})`;
}

/** A height of the ground with its doubt in one unit: centimetres, or tenths of a foot. */
const groundWords = (value: Metres, units: UnitSystem): string =>
  units === 'us' ? `${(value / FOOT_M).toFixed(1)}\u202fft` : `${value.toFixed(2)}\u202fm`;
