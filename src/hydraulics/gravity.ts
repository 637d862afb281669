/** Standard acceleration of free fall, m/s², by convention (3rd CGPM, 1901; ISO 80000-3:2019). */
export const GRAVITY = 9.80665;
