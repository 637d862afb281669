/** Something wrong with what the user gave: data, never an exception. Words are the report's. */
export interface Problem {
  /** Stable name of what is wrong, such as `unknown-key`. */
  readonly code: string;
  /** Where, as a JSON path such as `features[3].properties.pipe`, or the name of a file. */
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };
