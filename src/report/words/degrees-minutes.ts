import type { Position } from '../../geodesy/position.ts';

const MINUTES = 60;
/** Four decimals of a minute are about 0.2 m on the ground. */
const DECIMALS = 4;

/** A position in degrees and decimal minutes with its letters, as handheld receivers show it. */
export function degreesMinutes({ lat, lon }: Position): string {
  return `${axis(lat, 'NS')} ${axis(lon, 'EW')}`;
}

function axis(degrees: number, letters: 'NS' | 'EW'): string {
  // Rounded once, in minutes, so that 59.99999′ becomes the next degree and never 60′.
  const minutes = Number((Math.abs(degrees) * MINUTES).toFixed(DECIMALS));
  const whole = Math.floor(minutes / MINUTES);
  const rest = (minutes - whole * MINUTES).toFixed(DECIMALS).padStart(DECIMALS + 3, '0');
  return `${whole}°\u202f${rest}′\u202f${letters[degrees < 0 ? 1 : 0]}`;
}
