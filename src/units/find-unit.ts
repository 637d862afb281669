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
