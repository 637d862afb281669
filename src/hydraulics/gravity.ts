import { STANDARD_GRAVITY } from '../units/factor.ts';

/** Standard acceleration of free fall, m/s²: 9.80665 by convention (3rd CGPM, 1901; ISO 80000-3:2019). */
export const GRAVITY = STANDARD_GRAVITY;
