/** A value in words, with its range where it has one. */
export interface ComparedValue {
  readonly words: string;
  readonly range: string | null;
}

/** One thing that two plans are compared by, in words; null where a plan has it not. */
export interface ComparedRow {
  readonly about: string;
  readonly one: ComparedValue | null;
  readonly other: ComparedValue | null;
  /** What the other has more (+) or less (−); null where that cannot be said in a number. */
  readonly difference: string | null;
  /** `apart` where the spreads lie apart, `within` where they meet, `same` where nothing differs. */
  readonly standing: 'apart' | 'within' | 'same' | 'other';
}

/** A value without doubt. */
export function told(words: string | null): ComparedValue | null {
  return words === null ? null : { words, range: null };
}
