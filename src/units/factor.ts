/**
 * Exact factors from customary units to SI.
 *
 * Source: NIST Special Publication 811, Guide for the Use of the International System of Units, 2008, appendix B.
 * The imperial gallon is 4.54609 L by the UK Weights and Measures Act 1985, schedule 1.
 */

export const FOOT_M = 0.3048;
export const INCH_M = 0.0254;
export const YARD_M = 0.9144;
export const MILE_M = 1609.344;

export const LITRE_M3 = 1e-3;
/** The US liquid gallon is 231 cubic inches. */
export const US_GALLON_M3 = 231 * INCH_M ** 3;
export const IMPERIAL_GALLON_M3 = 4.54609e-3;
export const CUBIC_FOOT_M3 = FOOT_M ** 3;

export const MINUTE_S = 60;
export const HOUR_S = 3600;
export const DAY_S = 86_400;

export const BAR_PA = 1e5;
export const POUND_KG = 0.453_592_37;
/** Standard acceleration of free fall, by convention (3rd CGPM, 1901). */
export const STANDARD_GRAVITY = 9.806_65;
export const PSI_PA = (POUND_KG * STANDARD_GRAVITY) / INCH_M ** 2;
/** Conventional metre of water: 1000 kg/m³ under standard gravity. */
export const METRE_HEAD_PA = 1000 * STANDARD_GRAVITY;
export const FOOT_HEAD_PA = METRE_HEAD_PA * FOOT_M;

export const CELSIUS_ZERO_K = 273.15;
export const FAHRENHEIT_STEP_C = 5 / 9;
/** 0 °F in °C. */
export const FAHRENHEIT_ZERO_C = -32 * FAHRENHEIT_STEP_C;
