import { DAY_S } from './factor.ts';
import type { QuantityKind, UnitSystem } from './kind.ts';
import { fromSi, UNITS, type UnitName } from './unit.ts';

/** Keeps a number and its unit, and groups of digits, on one line. */
const NARROW_SPACE = '\u202f';
const MINUS = '\u2212';

/** How a value is shown: its unit and either fixed decimals or significant digits. */
interface Style {
  readonly unit: UnitName;
  readonly decimals?: number;
  readonly significant?: number;
}

/** A value with its unit, in the digits that suit its kind: a height to 0.01 m or 0.1 ft, a flow to three figures. */
export function writeQuantity(value: number, kind: QuantityKind, system: UnitSystem): string {
  return writeAs(value, kind, styleOf(Math.abs(value), kind, system));
}

/** Two or more values of one kind in the one unit that suits the largest, joined for a range such as 900 to 2400 L/day. */
export function writeRange(low: number, high: number, kind: QuantityKind, system: UnitSystem): string {
  const style = styleOf(Math.max(Math.abs(low), Math.abs(high)), kind, system);
  const [first, last] = [numberOf(low, kind, style), numberOf(high, kind, style)];
  const unit = UNITS[style.unit].label;
  const words = first === last ? first : `${first} to ${last}`;
  return unit === '' ? words : words + NARROW_SPACE + unit;
}

/**
 * How much more (+) or less (−) the second value is, in the unit and digits in which the larger is written, so that it agrees
 * with what stands beside it; null where both are written alike.
 */
export function writeDifference(
  [one, other]: readonly [number, number],
  kind: QuantityKind,
  system: UnitSystem,
): string | null {
  if (writeQuantity(one, kind, system) === writeQuantity(other, kind, system)) return null;
  const style = styleOf(Math.max(Math.abs(one), Math.abs(other)), kind, system);
  const [first, second] = [one, other].map((value) => shownIn(value, kind, style));
  if (first === undefined || second === undefined) return null;
  const decimals = Math.min(decimalsOf(first, style), decimalsOf(second, style));
  const by = rounded(second, decimals) - rounded(first, decimals);
  const { label } = UNITS[style.unit];
  const digits = digitsOf(by, decimals);
  const sign = Number(digits) === 0 ? '±' : by < 0 ? MINUS : '+';
  return sign + grouped(digits) + (label === '' ? '' : NARROW_SPACE + label);
}

function writeAs(value: number, kind: QuantityKind, style: Style): string {
  const number = numberOf(value, kind, style);
  const { label } = UNITS[style.unit];
  if (label === '') return number;
  return number + NARROW_SPACE + (style.unit === 'day' && number === '1' ? 'day' : label);
}

function numberOf(value: number, kind: QuantityKind, style: Style): string {
  const shown = shownIn(value, kind, style);
  const digits = digitsOf(shown, decimalsOf(shown, style));
  const sign = shown < 0 && Number(digits) !== 0 ? MINUS : '';
  return sign + grouped(digits);
}

function shownIn(value: number, kind: QuantityKind, { unit }: Style): number {
  if (!Number.isFinite(value)) throw new RangeError(`found ${value} as ${kind}, expected a finite number`);
  return fromSi(kind === 'daily-volume' ? value / DAY_S : value, unit);
}

const decimalsOf = (shown: number, { decimals, significant }: Style): number =>
  decimals ?? decimalsFor(shown, significant ?? 3);

/** The number without its sign. */
function digitsOf(shown: number, decimals: number): string {
  return decimals >= 0 ? Math.abs(shown).toFixed(decimals) : String(rounded(Math.abs(shown), decimals));
}

function rounded(shown: number, decimals: number): number {
  const step = 10 ** -decimals;
  return Math.round(shown / step) * step;
}

/** Decimals that leave so many significant digits; negative to round before the point. */
function decimalsFor(shown: number, significant: number): number {
  if (shown === 0) return 0;
  const magnitude = Math.floor(Math.log10(Math.abs(Number(shown.toPrecision(significant)))));
  return Math.min(significant - 1 - magnitude, 6);
}

/** Groups of three from five digits on. */
function grouped(digits: string): string {
  const [whole = '', fraction] = digits.split('.');
  const spaced = whole.length > 4 ? whole.replace(/\B(?=(?:\d{3})+$)/g, NARROW_SPACE) : whole;
  return fraction === undefined ? spaced : `${spaced}.${fraction}`;
}

function styleOf(size: number, kind: QuantityKind, system: UnitSystem): Style {
  const metric = system === 'metric';
  switch (kind) {
    case 'height':
      return metric ? { unit: 'metre', decimals: 2 } : { unit: 'foot', decimals: 1 };
    case 'length':
      return metric ? { unit: 'metre', decimals: 1 } : { unit: 'foot', decimals: size < 30 ? 1 : 0 };
    case 'bore':
      return metric ? { unit: 'millimetre', decimals: 1 } : { unit: 'inch', decimals: 3 };
    case 'flow':
      return { unit: metric ? 'litrePerMinute' : 'usGallonPerMinute', significant: 3 };
    case 'daily-volume':
      return { unit: metric ? 'litrePerDay' : 'usGallonPerDay', significant: 3 };
    case 'volume':
      return { unit: metric ? (size < 10 ? 'litre' : 'cubicMetre') : 'usGallon', significant: 3 };
    case 'pressure':
      return metric ? metricPressure(size) : { unit: 'psi', decimals: size < 700_000 ? 1 : 0 };
    case 'velocity':
      return metric ? { unit: 'metrePerSecond', decimals: 2 } : { unit: 'footPerSecond', decimals: 1 };
    case 'duration':
      return duration(size);
    case 'temperature':
      return { unit: metric ? 'celsius' : 'fahrenheit', decimals: 1 };
    case 'mass':
      return mass(size, metric);
    case 'share':
      return { unit: 'percent', decimals: size < 0.1 ? 1 : 0 };
    case 'ratio':
      return { unit: 'one', decimals: size < 10 ? 2 : 1 };
    case 'count':
      return { unit: 'one', decimals: 0 };
  }
}

function metricPressure(size: number): Style {
  return size < 100_000 ? { unit: 'kilopascal', decimals: 1 } : { unit: 'bar', decimals: 2 };
}

/** Grams below a kilogram, ounces below a pound. */
function mass(size: number, metric: boolean): Style {
  if (metric) return size < 1 ? { unit: 'gram', decimals: 0 } : { unit: 'kilogram', decimals: 2 };
  return size < UNITS.pound.factor ? { unit: 'ounce', decimals: 1 } : { unit: 'pound', decimals: 2 };
}

/** Seconds to a minute and a half, minutes to an hour and a half, hours to two days; tenths below ten. */
function duration(size: number): Style {
  if (size < 90) return { unit: 'second', significant: 3 };
  const unit = size < 5400 ? 'minute' : size < 2 * DAY_S ? 'hour' : 'day';
  return { unit, decimals: size < 10 * UNITS[unit].factor ? 1 : 0 };
}
