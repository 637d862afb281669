import data from '../../data/wave-materials.json' with { type: 'json' };
import type { Pascals, Ratio } from '../units/quantity.ts';
import { provenanceOf, type Sourced } from './provenance.ts';

/** How a pipe wall gives way to a pressure wave. */
export interface WaveMaterial extends Sourced {
  /** Elastic modulus to reckon with, and its published range. */
  readonly modulus: Pascals;
  readonly modulusLow: Pascals;
  readonly modulusHigh: Pascals;
  readonly poisson: Ratio;
}

const GIGAPASCAL = 1e9;

/** Elastic constants of a pipe material. */
export function waveMaterial(material: keyof typeof data): WaveMaterial {
  const row = data[material];
  return {
    modulus: row.modulus_GPa * GIGAPASCAL,
    modulusLow: row.low_GPa * GIGAPASCAL,
    modulusHigh: row.high_GPa * GIGAPASCAL,
    poisson: row.poisson,
    source: row.source,
    provenance: provenanceOf(row.provenance),
  };
}
