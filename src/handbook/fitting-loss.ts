import data from '../../data/fitting-losses.json' with { type: 'json' };
import type { Metres, Ratio } from '../units/quantity.ts';
import { provenanceOf, type Sourced } from './provenance.ts';
import { roughnessOf } from './roughness.ts';

/** A fitting and the velocity heads it costs. */
export interface FittingRow extends Sourced {
  readonly id: string;
  readonly label: string;
  /** Loss coefficient that holds for every size. */
  readonly k: Ratio;
  /** Multiple of the fully turbulent friction factor, which falls with size. */
  readonly frictionFactors: Ratio;
}

const ROWS: readonly FittingRow[] = Object.entries(data).map(([id, row]) => ({
  id,
  ...row,
  provenance: provenanceOf(row.provenance),
}));
const BY_ID = new Map(ROWS.map((row) => [row.id, row]));

/** Every fitting of the handbook. */
export function fittingRows(): readonly FittingRow[] {
  return ROWS;
}

/** A fitting by its id; null when the handbook has none of that name. */
export function fittingRow(id: string): FittingRow | null {
  return BY_ID.get(id) ?? null;
}

/** Loss coefficient of a fitting at a bore, on v²/2g; an id that no check let through is a program error. */
export function fittingLoss(id: string, bore: Metres): Ratio {
  const row = fittingRow(id);
  if (row === null) throw new RangeError(`found fitting ${id}, expected one of the handbook's`);
  return row.frictionFactors === 0 ? row.k : row.k + row.frictionFactors * fullyTurbulentFactor(bore);
}

const STEEL_ROUGHNESS = roughnessOf('steel-new').value;
const COLEBROOK_ROUGH = 3.7;

/**
 * Friction factor of commercial steel of one bore when viscosity no longer counts: the measure of threaded fittings.
 *
 * f_T = 1 / (2 log₁₀(3.7 D / ε))²
 *
 * D bore, m; ε roughness of new steel, m. Range: the bores of threaded pipe, 8 to 100 mm.
 * Source: C. F. Colebrook, 1939, at infinite Reynolds number; within 1.6 % of the factors of the open library fluids 1.3.
 */
function fullyTurbulentFactor(bore: Metres): Ratio {
  if (!(bore > 0)) throw new RangeError(`found bore ${bore}, expected more than 0`);
  return (2 * Math.log10((COLEBROOK_ROUGH * bore) / STEEL_ROUGHNESS)) ** -2;
}
