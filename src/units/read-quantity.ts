import { DAY_S } from './factor.ts';
import { KINDS, type QuantityKind } from './kind.ts';
import { readNumber } from './read-number.ts';
import { UNITS, type Unit, type UnitName } from './unit.ts';

/** Ways to write each unit, in lower case and without spaces. A gallon is a US gallon unless it is called imperial. */
const ALIASES: Partial<Record<UnitName, readonly string[]>> = {
  metre: ['m', 'metre', 'metres', 'meter', 'meters'],
  millimetre: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
  centimetre: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  kilometre: ['km', 'kilometre', 'kilometres', 'kilometer', 'kilometers'],
  foot: ['ft', "'", 'foot', 'feet'],
  inch: ['in', '"', 'inch', 'inches'],
  yard: ['yd', 'yard', 'yards'],
  mile: ['mi', 'mile', 'miles'],
  cubicMetre: ['m³', 'cubicmetre', 'cubicmetres', 'cubicmeter', 'cubicmeters'],
  litre: ['l', 'litre', 'litres', 'liter', 'liters', 'ltr', 'ltrs'],
  millilitre: ['ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters'],
  usGallon: ['gal', 'gallon', 'gallons', 'usgal', 'usgallon', 'usgallons'],
  usQuart: ['qt', 'quart', 'quarts'],
  usPint: ['pt', 'pint', 'pints'],
  usFluidOunce: ['floz', 'fluidounce', 'fluidounces'],
  imperialGallon: [
    'impgal',
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
  psi: ['psi', 'psig'],
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
  const simple = BY_ALIAS.get(plain);
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
  readonly found: string;
  readonly expected: string;
}

export type QuantityReading = { readonly ok: true; readonly value: number } | QuantityRefusal;

interface Part {
  readonly number: string;
  readonly unit: string;
}

/**
 * Reads a quantity as people write it ("8 ft 3 in", "7,5 l/min", "1-1/4in") into the SI value of its kind.
 *
 * A bare number is refused unless the kind has no unit or `bareUnit` says what it stands for. A gallon is a US gallon
 * unless it is called imperial.
 */
export function readQuantity(text: string, kind: QuantityKind, bareUnit?: UnitName): QuantityReading {
  const plain = normalise(text);
  if (plain === '') return refusal('empty', text, kind);
  const parts = split(plain);
  if (parts === null) return refusal('not-a-number', text, kind);
  let sum = 0;
  let previous: Unit | null = null;
  for (const part of parts) {
    const number = readNumber(part.number);
    if (!number.ok && number.code === 'ambiguous-number')
      return { ...refusal(number.code, text, kind), expected: number.readings };
    if (!number.ok) return refusal('not-a-number', text, kind);
    const unit = unitOf(part, kind, number.value, bareUnit);
    if (typeof unit === 'string') return refusal(unit, text, kind);
    if (previous !== null && !follows(previous, unit, number.value)) return refusal('parts-unfit', text, kind);
    sum += signOf(plain) * (Math.abs(number.value) * unit.factor) + unit.zero;
    previous = unit;
  }
  return { ok: true, value: finish(sum, kind, previous) };
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
  const unit = findUnit(part.unit);
  if (unit === null) return 'unit-unknown';
  if (unit.dimension === dimension) return unit;
  return kind === 'daily-volume' && unit.dimension === 'volume'
    ? { ...unit, factor: unit.factor / DAY_S }
    : 'unit-unfit';
}

/** Whether a smaller part completes a larger one: inches after feet, minutes after hours. */
function follows(larger: Unit, smaller: Unit, value: number): boolean {
  const feetAndInches = larger === UNITS.foot && smaller === UNITS.inch;
  const clock = larger.dimension === 'time' && smaller.dimension === 'time' && smaller.factor < larger.factor;
  return (feetAndInches || clock) && value * smaller.factor < larger.factor;
}

function signOf(plain: string): number {
  return plain.startsWith('-') ? -1 : 1;
}

function finish(sum: number, kind: QuantityKind, last: Unit | null): number {
  const perDay = kind === 'daily-volume' && last !== null ? DAY_S : 1;
  return sum * perDay;
}

function refusal(code: QuantityRefusalCode, found: string, kind: QuantityKind): QuantityRefusal {
  return { ok: false, code, found, expected: KINDS[kind].expected };
}
