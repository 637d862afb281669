import { DAY_S } from './factor.ts';
import type { QuantityKind, UnitSystem } from './kind.ts';
import { fromSi, UNITS, type UnitName } from './unit.ts';

/** Keeps a number and its unit, and groups of digits, on one line. */
const NARROW_SPACE = '\u202f';
const MINUS = '\u2212';

/** How a value is shown: its unit and either fixed decimals or significant digits; noughts at the end of `trimmed` ones are left out. */
interface Style {
  readonly unit: UnitName;
  readonly decimals?: number;
  readonly significant?: number;
  readonly trimmed?: boolean;
  readonly system: UnitSystem;
}

/** A value with its unit, in the digits that suit its kind: a height to 0.01 m or 0.1 ft, a flow to three figures. */
export function writeQuantity(value: number, kind: QuantityKind, system: UnitSystem): string {
  return writeAs(value, kind, styleOf(Math.abs(value), kind, system));
}

/**
 * A value as somebody would have typed it, for a field: in feet and inches where it is a whole number of eighths of an inch, and
 * without noughts that say nothing. A value that needs more digits than its kind is shown with keeps two more.
 */
export function writeEntered(value: number, kind: QuantityKind, system: UnitSystem): string {
  const style = { ...styleOf(Math.abs(value), kind, system), trimmed: true };
  if (style.unit === 'foot') {
    const inches = feetAndInches(value);
    if (inches !== null) return inches;
  }
  const shown = shownIn(value, kind, style);
  const usual = decimalsOf(shown, style);
  const exact = [usual, usual + 1, usual + 2].find((decimals) => isExact(shown, decimals));
  return writeAs(value, kind, { ...style, decimals: exact ?? usual });
}

const isExact = (shown: number, decimals: number): boolean =>
  Math.abs(rounded(shown, decimals) - shown) <= 1e-9 * Math.max(1, Math.abs(shown));

/** A foot and more in feet and inches; null where it is no whole number of eighths of an inch. */
function feetAndInches(metres: number): string | null {
  const eighths = 8 * fromSi(Math.abs(metres), 'inch') || 0;
  const whole = Math.round(eighths);
  if (Math.abs(eighths - whole) > 1e-6 || whole % 96 === 0) return null;
  const inches = (whole % 96) / 8;
  const sign = metres < 0 ? MINUS : '';
  return `${sign}${grouped(String(Math.floor(whole / 96)), 'us')}${NARROW_SPACE}ft${NARROW_SPACE}${inches}${NARROW_SPACE}in`;
}

/** Two or more values of one kind in the one unit that suits the largest, joined for a range such as 900 to 2400 L/day. */
export function writeRange(low: number, high: number, kind: QuantityKind, system: UnitSystem): string {
  const style = styleOf(Math.max(Math.abs(low), Math.abs(high)), kind, system);
  const [first, last] = [numberOf(low, kind, style), numberOf(high, kind, style)];
  const words = first === last ? first : `${first} to ${last}`;
  return words + after(style);
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
  const digits = digitsOf(by, decimals);
  const sign = Number(digits) === 0 ? '±' : by < 0 ? MINUS : '+';
  return sign + grouped(digits, system) + after(style);
}

/** A plain number in groups of digits as the readers of a system of units group them: 12 500 or 12,500. */
export function writeGrouped(number: number, decimals: number, system: UnitSystem): string {
  const digits = Math.abs(number).toFixed(decimals);
  return (number < 0 && Number(digits) !== 0 ? MINUS : '') + grouped(digits, system);
}

function writeAs(value: number, kind: QuantityKind, style: Style): string {
  const number = numberOf(value, kind, style);
  if (style.unit === 'day' && Number(number) === 1) return `1${NARROW_SPACE}day`;
  return number + after(style);
}

/** The unit as it stands after the number; Americans write no space before a percent sign. */
function after({ unit, system }: Style): string {
  const { label } = UNITS[unit];
  if (label === '') return '';
  return unit === 'percent' && system === 'us' ? label : NARROW_SPACE + label;
}

function numberOf(value: number, kind: QuantityKind, style: Style): string {
  const shown = shownIn(value, kind, style);
  const digits = digitsOf(shown, decimalsOf(shown, style));
  const sign = shown < 0 && Number(digits) !== 0 ? MINUS : '';
  return sign + grouped(style.trimmed === true ? withoutNoughts(digits) : digits, style.system);
}

const withoutNoughts = (digits: string): string => (digits.includes('.') ? digits.replace(/\.?0+$/, '') : digits);

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

/** Groups of three: with a narrow space from five digits on, in American writing with a comma from four. */
function grouped(digits: string, system: UnitSystem): string {
  const [whole = '', fraction] = digits.split('.');
  const [mark, from] = system === 'us' ? [',', 4] : [NARROW_SPACE, 5];
  const spaced = whole.length >= from ? whole.replace(/\B(?=(?:\d{3})+$)/g, mark) : whole;
  return fraction === undefined ? spaced : `${spaced}.${fraction}`;
}

/** Below these a smaller unit is nearer to how people speak: a foot, a tenth of a litre or of a gallon a minute, a quart. */
const FOOT = UNITS.foot.factor;
const LITTLE = {
  litrePerMinute: 0.1 * UNITS.litrePerMinute.factor,
  usGallonPerMinute: 0.1 * UNITS.usGallonPerMinute.factor,
  litre: 0.1 * UNITS.litre.factor,
  usGallon: UNITS.usQuart.factor,
} as const;
/** A bore below this is a wall's roughness, m. */
const ROUGHNESS = 0.000_25;

function styleOf(size: number, kind: QuantityKind, system: UnitSystem): Style {
  return { ...(system === 'metric' ? metricStyle(size, kind) : usStyle(size, kind)), system };
}

type PlainStyle = Omit<Style, 'system'>;

function metricStyle(size: number, kind: QuantityKind): PlainStyle {
  switch (kind) {
    case 'height':
      return { unit: 'metre', decimals: 2 };
    case 'length':
      return { unit: 'metre', decimals: 1 };
    case 'bore':
      return size < ROUGHNESS
        ? { unit: 'millimetre', significant: 2, trimmed: true }
        : { unit: 'millimetre', decimals: 1, trimmed: true };
    case 'flow':
      return size < LITTLE.litrePerMinute ? little('litrePerDay', size) : { unit: 'litrePerMinute', significant: 3 };
    case 'daily-volume':
      return { unit: 'litrePerDay', significant: 3 };
    case 'volume':
      if (size < LITTLE.litre) return { unit: 'millilitre', significant: 2, trimmed: true };
      return { unit: size < 10 ? 'litre' : 'cubicMetre', significant: 3, trimmed: true };
    case 'pressure':
      return { unit: 'bar', decimals: 2 };
    case 'velocity':
      return { unit: 'metrePerSecond', decimals: 2 };
    case 'temperature':
      return { unit: 'celsius', decimals: 1, trimmed: true };
    case 'mass':
      return size < 1 ? { unit: 'gram', decimals: 0 } : { unit: 'kilogram', decimals: 2 };
    default:
      return eitherStyle(size, kind);
  }
}

function usStyle(size: number, kind: QuantityKind): PlainStyle {
  switch (kind) {
    case 'height':
      return size < FOOT ? { unit: 'inch', decimals: 1, trimmed: true } : { unit: 'foot', decimals: 1 };
    case 'length':
      return size < FOOT
        ? { unit: 'inch', decimals: 1, trimmed: true }
        : { unit: 'foot', decimals: size < 100 * FOOT ? 1 : 0 };
    case 'bore':
      return size < ROUGHNESS
        ? { unit: 'mil', significant: 2, trimmed: true }
        : { unit: 'inch', decimals: 3, trimmed: true };
    case 'flow':
      return size < LITTLE.usGallonPerMinute
        ? little('usGallonPerDay', size)
        : { unit: 'usGallonPerMinute', significant: 3 };
    case 'daily-volume':
      return size < LITTLE.usGallon
        ? { unit: 'usFluidOuncePerDay', significant: 2, trimmed: true }
        : { unit: 'usGallonPerDay', significant: 3 };
    case 'volume':
      return size < LITTLE.usGallon
        ? { unit: 'usFluidOunce', significant: 2, trimmed: true }
        : { unit: 'usGallon', significant: 3, trimmed: true };
    case 'pressure':
      return { unit: 'psi', decimals: size < 700_000 ? 1 : 0 };
    case 'velocity':
      return { unit: 'footPerSecond', decimals: 1 };
    case 'temperature':
      return { unit: 'fahrenheit', decimals: 1, trimmed: true };
    case 'mass':
      return size < UNITS.pound.factor ? { unit: 'ounce', decimals: 1 } : { unit: 'pound', decimals: 2 };
    default:
      return eitherStyle(size, kind);
  }
}

/** A flow so small that people tell it by the day: whole units, below ten to a tenth. */
function little(unit: 'litrePerDay' | 'usGallonPerDay', size: number): PlainStyle {
  return { unit, decimals: size < 10 * UNITS[unit].factor ? 1 : 0, trimmed: true };
}

function eitherStyle(size: number, kind: 'duration' | 'share' | 'ratio' | 'count'): PlainStyle {
  switch (kind) {
    case 'duration':
      return duration(size);
    case 'share':
      return { unit: 'percent', decimals: size < 0.1 ? 1 : 0, trimmed: true };
    case 'ratio':
      return { unit: 'one', decimals: size < 10 ? 2 : 1, trimmed: true };
    case 'count':
      return { unit: 'one', decimals: 0 };
  }
}

/** Seconds to a minute and a half, minutes to an hour and a half, hours to two days; tenths below ten. */
function duration(size: number): PlainStyle {
  if (size < 90) return { unit: 'second', significant: 3 };
  const unit = size < 5400 ? 'minute' : size < 2 * DAY_S ? 'hour' : 'day';
  return { unit, decimals: size < 10 * UNITS[unit].factor ? 1 : 0 };
}
