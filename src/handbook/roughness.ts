import data from '../../data/roughness.json' with { type: 'json' };
import type { Metres } from '../units/quantity.ts';
import { provenanceOf, published, type Sourced } from './provenance.ts';

/** The inside of a pipe as water feels it. */
export type Surface = keyof typeof data;

/** Equivalent sand roughness of a surface: the value to reckon with and its published range. */
export interface Roughness extends Sourced {
  readonly label: string;
  readonly value: Metres;
  readonly low: Metres;
  readonly high: Metres;
}

const read = new Map<Surface, Roughness>();

/** Roughness of a surface; each is read once. */
export function roughnessOf(surface: Surface): Roughness {
  const known = read.get(surface) ?? readRoughness(surface);
  read.set(surface, known);
  return known;
}

function readRoughness(surface: Surface): Roughness {
  const { label, value, low, high, source, provenance } = data[surface];
  return {
    label,
    value: published(value, 'bore'),
    low: published(low, 'bore'),
    high: published(high, 'bore'),
    source,
    provenance: provenanceOf(provenance),
  };
}

/** Every surface of the handbook. */
export function surfaces(): readonly Surface[] {
  return Object.keys(data) as Surface[];
}
