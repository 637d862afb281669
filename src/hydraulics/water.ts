import type {
  Celsius,
  KilogramsPerCubicMetre,
  MetresPerSecond,
  Pascals,
  SquareMetresPerSecond,
} from '../units/quantity.ts';

/** Liquid water at one temperature, near atmospheric pressure. */
export interface Water {
  readonly temperature: Celsius;
  readonly density: KilogramsPerCubicMetre;
  /** Kinematic viscosity. */
  readonly viscosity: SquareMetresPerSecond;
  /** Absolute. */
  readonly vapourPressure: Pascals;
  readonly soundSpeed: MetresPerSecond;
  /** Isentropic: what a pressure wave feels. */
  readonly bulkModulus: Pascals;
}

/** Where the formulas below hold, °C. */
export const WATER_TEMPERATURE: { readonly least: Celsius; readonly most: Celsius } = { least: 0, most: 60 };

const CELSIUS_ZERO = 273.15;

/** The water asked for last: a plan has but one, and asks often. */
let last: Water | null = null;

/** All properties of water at a temperature from 0 to 60 °C; another temperature is a program error. */
export function waterAt(temperature: Celsius): Water {
  last = last?.temperature === temperature ? last : reckonWater(temperature);
  return last;
}

function reckonWater(temperature: Celsius): Water {
  if (!(temperature >= WATER_TEMPERATURE.least && temperature <= WATER_TEMPERATURE.most)) {
    throw new RangeError(`found water at ${temperature} °C, expected 0 to 60 °C`);
  }
  const density = waterDensity(temperature);
  const soundSpeed = waterSoundSpeed(temperature);
  return {
    temperature,
    density,
    viscosity: dynamicViscosity(temperature) / density,
    vapourPressure: waterVapourPressure(temperature),
    soundSpeed,
    bulkModulus: density * soundSpeed * soundSpeed,
  };
}

/**
 * Density of air-free water.
 *
 * ρ = (999.83952 + 16.945176 t − 7.9870401e−3 t² − 46.170461e−6 t³ + 105.56302e−9 t⁴ − 280.54253e−12 t⁵) / (1 + 16.879850e−3 t)
 *
 * t temperature, °C; ρ kg/m³. Range 0 to 100 °C at 101.325 kPa.
 * Source: G. S. Kell, Density, thermal expansivity, and compressibility of liquid water, Journal of Chemical and
 * Engineering Data 20, 1975, equation 16.
 */
function waterDensity(t: Celsius): KilogramsPerCubicMetre {
  return polynomial(DENSITY_ABOVE, t) / polynomial(DENSITY_BELOW, t);
}
const DENSITY_ABOVE = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
const DENSITY_BELOW = [1, 16.87985e-3];

/**
 * Dynamic viscosity.
 *
 * μ = 10⁻⁶ Σ aᵢ (T / 300 K)^bᵢ
 *
 * T absolute temperature, K; μ Pa·s. Range 253 to 383 K at 0.1 MPa.
 * Source: IAPWS SR6-08, Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa, 2011, equation 7.
 */
function dynamicViscosity(t: Celsius): number {
  const reduced = (t + CELSIUS_ZERO) / 300;
  let sum = 0;
  for (const { factor, power } of VISCOSITY_TERMS) sum += factor * reduced ** power;
  return sum * 1e-6;
}
const VISCOSITY_TERMS = [
  { factor: 280.68, power: -1.9 },
  { factor: 511.45, power: -7.7 },
  { factor: 61.131, power: -19.6 },
  { factor: 0.45903, power: -40 },
];

/**
 * Vapour pressure over liquid water.
 *
 * ln(p / p_c) = (T_c / T) Σ aᵢ θ^bᵢ,  θ = 1 − T / T_c
 *
 * T absolute temperature, K; T_c 647.096 K; p_c 22.064 MPa; p Pa, absolute. Range 273.16 to 647.096 K.
 * Source: IAPWS SR1-86, Revised Supplementary Release on Saturation Properties of Ordinary Water Substance, 1992.
 */
function waterVapourPressure(t: Celsius): Pascals {
  const kelvin = t + CELSIUS_ZERO;
  const theta = 1 - kelvin / CRITICAL_TEMPERATURE;
  let sum = 0;
  for (const { factor, power } of VAPOUR_TERMS) sum += factor * theta ** power;
  return CRITICAL_PRESSURE * Math.exp((CRITICAL_TEMPERATURE / kelvin) * sum);
}
const CRITICAL_TEMPERATURE = 647.096;
const CRITICAL_PRESSURE = 22.064e6;
const VAPOUR_TERMS = [
  { factor: -7.85951783, power: 1 },
  { factor: 1.84408259, power: 1.5 },
  { factor: -11.7866497, power: 3 },
  { factor: 22.6807411, power: 3.5 },
  { factor: -15.9618719, power: 4 },
  { factor: 1.80122502, power: 7.5 },
];

/**
 * Speed of sound in unbounded water.
 *
 * c = 1402.385 + 5.038813 t − 5.799136e−2 t² + 3.287156e−4 t³ − 1.398845e−6 t⁴ + 2.787860e−9 t⁵
 *
 * t temperature, °C; c m/s. Range 0 to 95 °C at 101.325 kPa.
 * Source: W. Marczak, Water as a standard in the measurements of speed of sound in liquids, Journal of the Acoustical
 * Society of America 102, 1997, table II.
 */
function waterSoundSpeed(t: Celsius): MetresPerSecond {
  return polynomial(SOUND_SPEED, t);
}
const SOUND_SPEED = [1402.385, 5.038813, -5.799136e-2, 3.287156e-4, -1.398845e-6, 2.78786e-9];

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
