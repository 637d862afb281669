import type { QuantityKind } from '../units/kind.ts';
import { readQuantity } from '../units/read-quantity.ts';

/**
 * How a published value came here: `found` the document was read, `library` from a general open-source library, `computed`
 * from other values, `memory` known but its document was not read.
 */
export type Provenance = 'found' | 'library' | 'computed' | 'memory';

/** Where a value comes from. */
export interface Sourced {
  /** Title of the publication, or `common practice, no source`. */
  readonly source: string;
  readonly provenance: Provenance;
}

const WORDS: readonly string[] = ['found', 'library', 'computed', 'memory'] satisfies Provenance[];

/** Takes a provenance word of a data file; another word is a wrong data file. */
export function provenanceOf(word: string): Provenance {
  if (WORDS.includes(word)) return word as Provenance;
  throw new Error(`found provenance ${word}, expected one of ${WORDS.join(', ')}`);
}

/** The SI value of a figure as it was published, with the published unit; an unreadable one is a wrong data file. */
export function published(text: string, kind: QuantityKind): number {
  const reading = readQuantity(text, kind);
  if (reading.ok) return reading.value;
  throw new Error(`found ${reading.found} in the handbook, expected ${reading.expected}`);
}
