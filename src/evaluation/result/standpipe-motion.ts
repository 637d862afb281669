import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, CubicMetresPerSecond, Metres, Ratio, Seconds, SquareMetres } from '../../units/quantity.ts';

const MINUTE: Seconds = 60;

/**
 * Share of a beat's water by which the standpipe's level swings: the drive pipe takes it in the later part of the beat while
 * the supply line brings it evenly. Half the water of an evenly rising flow is taken in the last 30 % of the time. From the
 * areas of the two flow curves; common practice, no source.
 */
const SWING_SHARE: Ratio = 0.35;

/** Beats a minute assumed where no model says more: the middle of the usual range. Common practice, no source. */
const USUAL_BEATS = 60;

/** How a standpipe's level moves around its running level. */
export interface StandpipeMotion {
  /** Height between the highest and the lowest level in a beat. */
  readonly swing: Metres;
  /** How far the level overshoots when the pump is stopped or started. */
  readonly surge: Metres;
}

/** Cross section of a round pipe: π D²/4. */
export function sectionOf(bore: Metres): SquareMetres {
  return (Math.PI * bore * bore) / 4;
}

/**
 * Swing and surge of a standpipe.
 *
 * Swing Δz = 0.35 V / A, V the water of one beat. Surge z = Q √(L / (g A_s A)), the first peak of a column of length L and
 * section A_s that ends in a shaft of section A, without friction.
 *
 * A section of the standpipe, A_s of the supply line, m²; L m; Q m³/s.
 * Source: mass oscillation in a surge shaft, Wylie and Streeter, Fluid Transients, 1978 (from memory).
 */
export function standpipeMotion(about: {
  readonly bore: Metres;
  readonly flow: CubicMetresPerSecond;
  readonly beatsPerMinute: number | null;
  readonly supply: { readonly length: Metres; readonly bore: Metres } | null;
}): StandpipeMotion {
  const section = sectionOf(about.bore);
  const beat: CubicMetres = (about.flow * MINUTE) / (about.beatsPerMinute ?? USUAL_BEATS);
  const { supply } = about;
  return {
    swing: (SWING_SHARE * beat) / section,
    surge: supply ? about.flow * Math.sqrt(supply.length / (GRAVITY * section * sectionOf(supply.bore))) : 0,
  };
}
