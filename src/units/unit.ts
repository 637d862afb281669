import {
  BAR_PA,
  CELSIUS_ZERO_K,
  CUBIC_FOOT_M3,
  DAY_S,
  FAHRENHEIT_STEP_C,
  FAHRENHEIT_ZERO_C,
  FOOT_HEAD_PA,
  FOOT_M,
  HOUR_S,
  IMPERIAL_GALLON_M3,
  INCH_M,
  LITRE_M3,
  METRE_HEAD_PA,
  MILE_M,
  MINUTE_S,
  POUND_KG,
  PSI_PA,
  US_GALLON_M3,
  YARD_M,
} from './factor.ts';

export type Dimension =
  | 'length'
  | 'volume'
  | 'time'
  | 'flow'
  | 'velocity'
  | 'pressure'
  | 'temperature'
  | 'mass'
  | 'share'
  | 'number';

/** A unit: SI value = number × factor + zero. */
export interface Unit {
  /** As it is written after a number. */
  readonly label: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly zero: number;
}

function unit(dimension: Dimension, label: string, factor: number, zero = 0): Unit {
  return { label, dimension, factor, zero };
}

export const UNITS = {
  metre: unit('length', 'm', 1),
  millimetre: unit('length', 'mm', 1e-3),
  centimetre: unit('length', 'cm', 1e-2),
  kilometre: unit('length', 'km', 1e3),
  foot: unit('length', 'ft', FOOT_M),
  inch: unit('length', 'in', INCH_M),
  /** A thousandth of an inch. */
  mil: unit('length', 'mil', INCH_M / 1000),
  yard: unit('length', 'yd', YARD_M),
  mile: unit('length', 'mi', MILE_M),
  cubicMetre: unit('volume', 'm³', 1),
  litre: unit('volume', 'L', LITRE_M3),
  millilitre: unit('volume', 'mL', LITRE_M3 / 1000),
  usGallon: unit('volume', 'gal', US_GALLON_M3),
  usQuart: unit('volume', 'qt', US_GALLON_M3 / 4),
  usPint: unit('volume', 'pt', US_GALLON_M3 / 8),
  usFluidOunce: unit('volume', 'fl oz', US_GALLON_M3 / 128),
  imperialGallon: unit('volume', 'imp gal', IMPERIAL_GALLON_M3),
  cubicFoot: unit('volume', 'ft³', CUBIC_FOOT_M3),
  second: unit('time', 's', 1),
  minute: unit('time', 'min', MINUTE_S),
  hour: unit('time', 'h', HOUR_S),
  day: unit('time', 'days', DAY_S),
  week: unit('time', 'weeks', 7 * DAY_S),
  litrePerSecond: unit('flow', 'L/s', LITRE_M3),
  litrePerMinute: unit('flow', 'L/min', LITRE_M3 / MINUTE_S),
  litrePerDay: unit('flow', 'L/day', LITRE_M3 / DAY_S),
  cubicMetrePerHour: unit('flow', 'm³/h', 1 / HOUR_S),
  cubicMetrePerDay: unit('flow', 'm³/day', 1 / DAY_S),
  usGallonPerMinute: unit('flow', 'gal/min', US_GALLON_M3 / MINUTE_S),
  usFluidOuncePerDay: unit('flow', 'fl oz/day', US_GALLON_M3 / 128 / DAY_S),
  usGallonPerDay: unit('flow', 'gal/day', US_GALLON_M3 / DAY_S),
  metrePerSecond: unit('velocity', 'm/s', 1),
  footPerSecond: unit('velocity', 'ft/s', FOOT_M),
  pascal: unit('pressure', 'Pa', 1),
  kilopascal: unit('pressure', 'kPa', 1e3),
  megapascal: unit('pressure', 'MPa', 1e6),
  bar: unit('pressure', 'bar', BAR_PA),
  millibar: unit('pressure', 'mbar', BAR_PA / 1000),
  psi: unit('pressure', 'psi', PSI_PA),
  metreHead: unit('pressure', 'm head', METRE_HEAD_PA),
  footHead: unit('pressure', 'ft head', FOOT_HEAD_PA),
  celsius: unit('temperature', '°C', 1),
  fahrenheit: unit('temperature', '°F', FAHRENHEIT_STEP_C, FAHRENHEIT_ZERO_C),
  kelvin: unit('temperature', 'K', 1, -CELSIUS_ZERO_K),
  kilogram: unit('mass', 'kg', 1),
  gram: unit('mass', 'g', 1e-3),
  pound: unit('mass', 'lb', POUND_KG),
  ounce: unit('mass', 'oz', POUND_KG / 16),
  percent: unit('share', '%', 0.01),
  whole: unit('share', '', 1),
  one: unit('number', '', 1),
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof UNITS;

/** A number of some unit as its SI value. */
export function toSi(value: number, from: UnitName): number {
  const { factor, zero } = UNITS[from];
  return value * factor + zero;
}

/** An SI value as a number of some unit. */
export function fromSi(value: number, to: UnitName): number {
  const { factor, zero } = UNITS[to];
  return (value - zero) / factor;
}
