import type { Outcome, Problem } from '../../units/outcome.ts';
import type { Corners } from './crs-candidate.ts';
import type { HeightUnit } from './vertical-unit.ts';

/** What the user said about a file where the file itself leaves it open. */
export interface OpenAnswers {
  /** Band with the heights, counted from 1. */
  readonly band?: number;
  /** The stored number that means "no height", or that there is none. Comes before what the file says. */
  readonly noData?: number | 'none';
  /** Unit of the heights. Comes before what the file says. */
  readonly verticalUnit?: HeightUnit;
  /** Which way rows run where the file's Y scale is negative. */
  readonly rowsRun?: 'south' | 'north';
  /** EPSG code of the CRS. Comes before what the file says. */
  readonly crs?: number;
  /** Bytes of unpacked blocks to keep. */
  readonly memory?: number;
  readonly signal?: AbortSignal;
}

/** What a file leaves open; the answer goes back through the field of `OpenAnswers` that `about` names. */
export type Question =
  | {
      readonly kind: 'question';
      readonly about: 'band';
      readonly file: string;
      readonly bands: readonly { readonly band: number; readonly title: string }[];
    }
  | {
      readonly kind: 'question';
      readonly about: 'noData';
      readonly file: string;
      /** The stored number that looks like "no height", and what share of the cells looked at hold it. */
      readonly suspicious: number;
      readonly share: number;
      readonly stated: string | null;
    }
  | {
      readonly kind: 'question';
      readonly about: 'verticalUnit';
      readonly file: string;
      readonly because: 'grid-in-feet' | 'heights-implausible' | 'slopes-implausible';
      /** Lowest and highest stored number among the cells looked at. */
      readonly lowest: number;
      readonly highest: number;
      readonly likely: HeightUnit | null;
    }
  | { readonly kind: 'question'; readonly about: 'rowsRun'; readonly file: string }
  | {
      readonly kind: 'question';
      readonly about: 'crs';
      readonly file: string;
      /** Coordinates of the file's south-west and north-east corner, to tell one CRS from another. */
      readonly corners: Corners;
    };

/**
 * What opening a file comes to. A question is also an outcome that failed, with its problem in words' stead, so that a
 * caller who cannot ask shows it like any other.
 */
export type OpenOutcome<T> =
  | { readonly kind: 'opened'; readonly ok: true; readonly value: T }
  | { readonly kind: 'refused'; readonly ok: false; readonly problems: readonly Problem[] }
  | {
      readonly kind: 'question';
      readonly ok: false;
      readonly question: Question;
      readonly problems: readonly Problem[];
    };

/** An `OpenOutcome` is an `Outcome`; this line stops compiling when it is not. */
export type OpenOutcomeIsOutcome<T> = OpenOutcome<T> extends Outcome<T> ? true : never;

/** Thrown inside the reader where only the user can say. */
export class FileQuestion extends Error {
  readonly question: Question;

  constructor(question: Question) {
    super(`question: ${question.about}`);
    this.name = 'FileQuestion';
    this.question = question;
  }
}
