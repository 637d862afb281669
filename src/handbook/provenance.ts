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
