import type { DeliveryResult, MeasureFirst } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Measurement, Plan } from '../../plan/model/plan.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';

/** One thing to measure on site: what, how well, and what is thought of it now. */
export interface MeasureWords {
  readonly title: string;
  /** Null when any reading helps. */
  readonly aim: string | null;
  readonly expected: string | null;
}

const TITLES: Readonly<Record<string, (about: string, from: string) => string>> = {
  fall: (about) => `Level the fall: ${about} against the source`,
  'standpipe-level': (about) => `Level ${about} against the source`,
  lift: (about) => `Level the lift to ${about} from the pump`,
  'summit-level': (about, from) => `Level the high point of ${about} from ${from}`,
  'trough-level': (about) => `Level ${about} against what feeds it`,
  'source-yield': (about) => `Time fillings of a container at ${about}`,
  'pump-efficiency': () => 'Measure what the pump takes and what it delivers',
  'drive-length': (about) => `Measure ${about} along the ground`,
  'drive-line': (about) => `Stretch a line along ${about} and measure where the ground stands above it`,
  'pipe-wall': (about) => `Ask for the material and measure the wall of ${about}`,
  'valve-height': (about) =>
    `See how high the waste valve of ${about} stands above the ground, and where its water runs`,
  'gauge-swing': (about) => `Read the swing of the gauge at ${about}`,
  'frost-depth': (about) => `Ask how deep the frost goes at ${about}`,
  'pump-back-pressure': (about) => `Ask the maker, or try, what back pressure ${about} runs with`,
  bores: (about) => `Measure the bores of ${about} and of the drive pipe`,
  'tank-volume': (about) => `Measure what ${about} holds`,
  'line-flow': (about) => `Time fillings of a container at ${about} once its line is laid`,
  beats: (about) => `Count the beats of ${about} over a minute`,
  ground: (about) => `Take the level of ${about}: the elevation file has no height there`,
};

export function measureWords(item: MeasureFirst, plan: Plan, units: UnitSystem): MeasureWords {
  const title = TITLES[item.quantity];
  if (title === undefined)
    throw new Error(`found quantity ${item.quantity}, expected one of ${Object.keys(TITLES).join(', ')}`);
  const { aim, expected, unit } = item;
  return {
    title: title(nameOf(plan, item.about), levelledFrom(plan, item.about)),
    aim: aim === null ? null : `to ±${aimWords(aim, unit, units)}`,
    expected: expected === null ? null : expectedWords(item.quantity, expected, unit, units),
  };
}

/** Where a level along a route is taken from: the end that the plan judges it by. */
function levelledFrom(plan: Plan, about: string): string {
  const role = plan.routes.find(({ id }) => id === about)?.role;
  if (role === 'gravity') return 'what feeds it';
  return role === 'supply' ? 'the source' : 'the pump';
}

/** An aim to two figures: how well to measure is itself only known so well. Zeros that say nothing are left out. */
function aimWords(aim: number, unit: QuantityKind, units: UnitSystem): string {
  const written = writeQuantity(Number(aim.toPrecision(2)), unit, units);
  return written.replace(/^([\d\u202f]*[.]\d{2})\d+/, '$1').replace(/^([\d\u202f]*[.]\d)0(?!\d)/, '$1');
}

/** Quantities that are a level against another place: a negative one lies lower. */
const AGAINST: ReadonlySet<string> = new Set(['fall', 'standpipe-level', 'lift', 'summit-level', 'trough-level']);

/** What is thought of a quantity now; a level wholly below or above the other place is told without a sign. */
function expectedWords(quantity: string, { low, high }: Estimate, unit: QuantityKind, units: UnitSystem): string {
  if (!AGAINST.has(quantity) || low * high <= 0) return writeRange(low, high, unit, units);
  return high < 0 ? `${writeRange(-high, -low, unit, units)} lower` : `${writeRange(low, high, unit, units)} higher`;
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
  if (governedBy === 'outlet') return 'its inlet';
  return `high point at ${writeQuantity(governedBy.summit, 'length', units)}`;
}

/** A level taken on site in one line. */
export function measurementWords(taken: Measurement, plan: Plan, units: UnitSystem): string {
  const spread = `±${writeQuantity(taken.plusMinus, 'height', units)}`;
  if (taken.kind === 'height') {
    return `${nameOf(plan, taken.point)}: ground at ${writeQuantity(taken.height, 'height', units)} ${spread}`;
  }
  const way = taken.rise < 0 ? 'below' : 'above';
  const rise = writeQuantity(Math.abs(taken.rise), 'height', units);
  return `${nameOf(plan, taken.to)}: ${rise} ${way} ${nameOf(plan, taken.from)} ${spread}`;
}
