import { DAY_S } from './factor.ts';
import { expectedOf, KINDS, type QuantityKind } from './kind.ts';
import { type LoneComma, type NumberReading, readNumber } from './read-number.ts';
import { UNITS, type Unit, type UnitName } from './unit.ts';

/** Ways to write each unit, in lower case and without spaces. A gallon is a US gallon unless it is called imperial. */
const ALIASES: Partial<Record<UnitName, readonly string[]>> = {
  metre: ['m', 'metre', 'metres', 'meter', 'meters'],
  millimetre: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
  centimetre: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  kilometre: ['km', 'kilometre', 'kilometres', 'kilometer', 'kilometers'],
  foot: ['ft', 'fts', "'", 'foot', 'feet'],
  inch: ['in', 'ins', '"', 'inch', 'inches'],
  mil: ['mil', 'mils', 'thou'],
  yard: ['yd', 'yds', 'yard', 'yards'],
  mile: ['mi', 'mile', 'miles'],
  cubicMetre: ['m³', 'cubicmetre', 'cubicmetres', 'cubicmeter', 'cubicmeters'],
  litre: ['l', 'litre', 'litres', 'liter', 'liters', 'ltr', 'ltrs'],
  millilitre: ['ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters'],
  usGallon: ['gal', 'gals', 'gallon', 'gallons', 'usgal', 'usgallon', 'usgallons'],
  usQuart: ['qt', 'quart', 'quarts'],
  usPint: ['pt', 'pint', 'pints'],
  usFluidOunce: ['floz', 'fluidounce', 'fluidounces'],
  imperialGallon: [
    'impgal',
    'impgals',
    'impgallon',
    'impgallons',
    'imperialgal',
    'imperialgallon',
    'imperialgallons',
    'ukgal',
    'ukgallon',
    'ukgallons',
  ],
  cubicFoot: ['ft³', 'cubicfoot', 'cubicfeet'],
  second: ['s', 'sec', 'secs', 'second', 'seconds'],
  minute: ['min', 'mins', 'minute', 'minutes'],
  hour: ['h', 'hr', 'hrs', 'hour', 'hours'],
  day: ['d', 'day', 'days'],
  week: ['week', 'weeks'],
  pascal: ['pa', 'pascal', 'pascals'],
  kilopascal: ['kpa'],
  megapascal: ['mpa'],
  bar: ['bar', 'bars'],
  millibar: ['mbar', 'hpa'],
  psi: ['psi', 'psig', 'lb/in²', 'lbs/in²', 'lb/sqin', 'lbs/sqin', 'pounds/squareinch', 'pounds/sqin'],
  metreHead: ['mhead', 'mofhead', 'mh2o', 'mofwater'],
  footHead: ['fthead', 'ftofhead', 'fth2o', 'ftofwater'],
  celsius: ['°c', 'c', 'degc', 'celsius'],
  fahrenheit: ['°f', 'f', 'degf', 'fahrenheit'],
  kelvin: ['k', 'kelvin'],
  kilogram: ['kg', 'kilo', 'kilos', 'kilogram', 'kilograms'],
  gram: ['g', 'gram', 'grams'],
  pound: ['lb', 'lbs', 'pound', 'pounds'],
  ounce: ['oz', 'ounce', 'ounces'],
  percent: ['%', 'percent'],
};

/** Rates with a name of their own. */
const RATES = new Map(
  Object.entries({
    gpm: 'gal/min',
    usgpm: 'gal/min',
    igpm: 'impgal/min',
    impgpm: 'impgal/min',
    gph: 'gal/h',
    gpd: 'gal/day',
    lps: 'l/s',
    lpm: 'l/min',
    lph: 'l/h',
    lpd: 'l/day',
    cfs: 'ft³/s',
    cfm: 'ft³/min',
    fps: 'ft/s',
  }),
);

const BY_ALIAS = new Map<string, Unit>(
  Object.entries(ALIASES).flatMap(([name, words]) => words.map((word) => [word, UNITS[name as UnitName]] as const)),
);

/** The unit that a word names; null when no unit is called so. */
export function findUnit(word: string): Unit | null {
  const plain = word.toLowerCase().replace(/\s+/g, '');
  const simple = BY_ALIAS.get(plain) ?? BY_ALIAS.get(plain.replace('per', '/'));
  if (simple) return simple;
  const [above, below, ...rest] = (RATES.get(plain) ?? plain).split('/');
  if (above === undefined || below === undefined || rest.length > 0) return null;
  return rate(BY_ALIAS.get(above), BY_ALIAS.get(below));
}

function rate(above: Unit | undefined, below: Unit | undefined): Unit | null {
  if (above === undefined || below?.dimension !== 'time') return null;
  const dimension = above.dimension === 'volume' ? 'flow' : above.dimension === 'length' ? 'velocity' : null;
  if (dimension === null) return null;
  return { label: `${above.label}/${below.label}`, dimension, factor: above.factor / below.factor, zero: 0 };
}

export type QuantityRefusalCode =
  | 'empty'
  | 'not-a-number'
  | 'ambiguous-number'
  | 'unit-missing'
  | 'unit-unknown'
  | 'unit-unfit'
  | 'parts-unfit';

export interface QuantityRefusal {
  readonly ok: false;
  readonly code: QuantityRefusalCode;
  readonly kind: QuantityKind;
  readonly found: string;
  readonly expected: string;
  /** Of a number that can be read in two ways: both, as they would be typed without doubt. */
  readonly readings?: readonly string[];
}

export type QuantityReading = { readonly ok: true; readonly value: number } | QuantityRefusal;

interface Part {
  readonly number: string;
  readonly unit: string;
}

/** How the writer of a quantity is known to write. */
export interface Habits {
  /** What a number without a unit stands for; left out, it is refused where its kind has one. */
  readonly bareUnit?: UnitName;
  /** What `1,500` is; left out, it is thousands before a unit in which nobody writes a decimal comma, and else asked. */
  readonly loneComma?: LoneComma;
}

/**
 * Reads a quantity as people write it ("8 ft 3 in", "7,5 l/min", "1-1/4in", "1:10") into the SI value of its kind.
 *
 * A gallon is a US gallon unless it is called imperial.
 */
export function readQuantity(text: string, kind: QuantityKind, habits: Habits = {}): QuantityReading {
  const plain = normalise(text);
  if (plain === '') return refusal('empty', text, kind);
  if (kind === 'duration' && STOPWATCH.test(plain)) return { ok: true, value: stopwatch(plain) };
  const parts = split(plain);
  if (parts === null) return refusal('not-a-number', text, kind);
  let sum = 0;
  let previous: Unit | null = null;
  for (const part of parts) {
    const number = numberIn(part, habits);
    if (!number.ok && number.code === 'ambiguous-number') return ambiguous(text, part, number.readings, kind);
    if (!number.ok) return refusal('not-a-number', text, kind);
    const unit = unitOf(part, kind, number.value, unitAfter(previous) ?? habits.bareUnit);
    if (typeof unit === 'string') return refusal(unit, text, kind);
    if (previous !== null && !follows(previous, unit, number.value)) return refusal('parts-unfit', text, kind);
    sum += signOf(plain) * (Math.abs(number.value) * unit.factor) + unit.zero;
    previous = unit;
  }
  return { ok: true, value: finish(sum, kind, previous) };
}

/** Minutes and seconds, or hours, minutes and seconds, as a stopwatch shows them. */
const STOPWATCH = /^\d{1,3}(?::[0-5]\d){1,2}(?:[.,]\d+)?$/;

function stopwatch(plain: string): number {
  return plain.split(':').reduce((sum, part) => 60 * sum + Number(part.replace(',', '.')), 0);
}

/** Units before which a comma marks thousands: whoever writes in them writes no decimal comma. */
const NO_DECIMAL_COMMA: ReadonlySet<Unit> = new Set<Unit>([
  UNITS.foot,
  UNITS.yard,
  UNITS.usGallon,
  UNITS.pound,
  UNITS.psi,
]);

function numberIn({ number, unit }: Part, { loneComma }: Habits): NumberReading {
  const [above = ''] = unit.split('/');
  const named = findUnit(unit) ?? findUnit(above);
  const perTime = findUnit(above);
  const thousands = [named, perTime].some((each) => each !== null && NO_DECIMAL_COMMA.has(each));
  return readNumber(number, loneComma ?? (thousands ? 'thousands' : 'asked'));
}

/** What a number without a unit stands for after a larger part: inches after feet, seconds after minutes, ounces after pounds. */
function unitAfter(previous: Unit | null): UnitName | undefined {
  switch (previous) {
    case UNITS.foot:
      return 'inch';
    case UNITS.hour:
      return 'minute';
    case UNITS.minute:
      return 'second';
    case UNITS.pound:
      return 'ounce';
    default:
      return undefined;
  }
}

function ambiguous(text: string, { number }: Part, readings: readonly string[], kind: QuantityKind): QuantityRefusal {
  const whole = readings.map((reading) => normalise(text).replace(number, reading));
  return { ...refusal('ambiguous-number', text, kind), expected: readings.join(' or '), readings: whole };
}

/** Writes the signs, spaces, marks and powers that people and programs use in one way. */
function normalise(text: string): string {
  return spellFractions(text)
    .replace(/[\u00a0\u2007\u2009\u202f\s]+/g, ' ')
    .replace(/[−–]/g, '-')
    .replace(/[″”“]|''/g, '"')
    .replace(/[′’‘]/g, "'")
    .replace(/º/g, '°')
    .replace(/'\s*-\s*(?=\d)/g, "'")
    .replace(/([a-z'])\s*,\s*(?=\d)/gi, '$1 ')
    .replace(/([a-z])\./gi, '$1')
    .replace(/(?<![a-z])(m|ft)\^?3(?=\s*(?:\/|per\b|a\b|$))/gi, '$1³')
    .replace(/(?<=\/|per\s|sq\s?)in\^?2?$/gi, (unit) => (/2$/.test(unit) ? 'in²' : unit))
    .replace(/\bsq(?:uare)?\s+in(?:ch(?:es)?)?$/i, 'sqin')
    .replace(/\s*(?:\/|\bper\b|\ba\b)\s*(?=[a-z])/gi, '/')
    .trim();
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

function spellFractions(text: string): string {
  return text.replace(/(\d?)\s*([¼½¾⅛⅜⅝⅞])/g, (_, whole: string, sign: string) => {
    const fraction = FRACTIONS[sign] ?? sign;
    return whole === '' ? fraction : `${whole}-${fraction}`;
  });
}

const PART =
  /([+-]?\s?(?:\d+[ -]\d+\/\d+|\d+\/\d+|\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d/])|[\d.,]+(?:e[+-]?\d+)?))([^\d.,+-]*)/iy;

function split(plain: string): Part[] | null {
  const parts: Part[] = [];
  PART.lastIndex = 0;
  while (PART.lastIndex < plain.length) {
    const match = PART.exec(plain);
    if (match?.[1] === undefined) return null;
    if (parts.length > 0 && /^[+-]/.test(match[1])) return null;
    parts.push({ number: match[1].trim().toLowerCase(), unit: (match[2] ?? '').trim() });
  }
  return parts;
}

function unitOf(part: Part, kind: QuantityKind, value: number, bareUnit?: UnitName): Unit | QuantityRefusalCode {
  const { dimension } = KINDS[kind];
  if (part.unit === '') {
    if (bareUnit !== undefined) return UNITS[bareUnit];
    if (dimension === 'number') return Number.isInteger(value) || kind !== 'count' ? UNITS.one : 'not-a-number';
    return dimension === 'share' && Math.abs(value) <= 1 ? UNITS.whole : 'unit-missing';
  }
  // A degree sign alone is of the scale that the field is in.
  if (part.unit === '°' && dimension === 'temperature')
    return bareUnit === undefined ? 'unit-missing' : UNITS[bareUnit];
  const unit = findUnit(part.unit);
  if (unit === null) return 'unit-unknown';
  if (unit.dimension === dimension) return unit;
  return kind === 'daily-volume' && unit.dimension === 'volume'
    ? { ...unit, factor: unit.factor / DAY_S }
    : 'unit-unfit';
}

/** Whether a smaller part completes a larger one: inches after feet, ounces after pounds, minutes after hours. */
function follows(larger: Unit, smaller: Unit, value: number): boolean {
  const feetAndInches = larger === UNITS.foot && smaller === UNITS.inch;
  const poundsAndOunces = larger === UNITS.pound && smaller === UNITS.ounce;
  const clock = larger.dimension === 'time' && smaller.dimension === 'time' && smaller.factor < larger.factor;
  return (feetAndInches || poundsAndOunces || clock) && value * smaller.factor < larger.factor;
}

function signOf(plain: string): number {
  return plain.startsWith('-') ? -1 : 1;
}

function finish(sum: number, kind: QuantityKind, last: Unit | null): number {
  const perDay = kind === 'daily-volume' && last !== null ? DAY_S : 1;
  return sum * perDay;
}

function refusal(code: QuantityRefusalCode, found: string, kind: QuantityKind): QuantityRefusal {
  return { ok: false, code, kind, found, expected: expectedOf(kind, null) };
}
