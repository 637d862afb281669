import type { Outcome, Problem } from '../../units/outcome.ts';
import type { Ratio } from '../../units/quantity.ts';
import type { Corners } from './crs-candidate.ts';
import type { HeightUnit } from './vertical-unit.ts';

/** What a file may state itself; an answer stands in its place only where it says so by name. */
export type Stated = 'noData' | 'verticalUnit' | 'crs';

/** What the user said about a file where the file itself leaves it open. */
export interface OpenAnswers {
  /** Band with the heights, counted from 1. */
  readonly band?: number;
  /** Stored numbers that mean "no height", beside what the file says; or that there are no further ones. */
  readonly noData?: number | readonly number[] | 'none';
  /** Unit of the heights, where the file does not say. */
  readonly verticalUnit?: HeightUnit;
  /** Which way rows run where the file's Y scale is negative. */
  readonly rowsRun?: 'south' | 'north';
  /** EPSG code of the CRS, where the file does not say. */
  readonly crs?: number;
  /** That numbers of 8 bits without a sign are heights and no picture. */
  readonly eightBit?: 'heights';
  /** The file that is meant inside an archive. */
  readonly entry?: string;
  /** Which answers come before what the file says. */
  readonly instead?: readonly Stated[];
  /** Whether to ask for a unit that nothing states even where metres are likely; left out, only where they are not. */
  readonly askUnit?: boolean;
  /** Bytes of unpacked blocks to keep. */
  readonly memory?: number;
  readonly signal?: AbortSignal;
}

/** What speaks for one unit of the heights or another. */
export interface UnitEvidence {
  /** Typical slope of the ground, rise over run, if the numbers are metres; in another unit it is that many times less. */
  readonly slopeAsMetres: Ratio;
  /** The product that the file's name names, whose heights come in metres. */
  readonly product: string | null;
  /** Whether the file says itself what its heights are in. */
  readonly stated: boolean;
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
      readonly because:
        | 'grid-in-feet'
        | 'heights-implausible'
        | 'slopes-implausible'
        | 'numbers-with-gaps'
        | 'not-stated';
      /** Lowest and highest stored number among the cells looked at. */
      readonly lowest: number;
      readonly highest: number;
      readonly likely: HeightUnit | null;
      readonly evidence: UnitEvidence;
    }
  | {
      readonly kind: 'question';
      readonly about: 'entry';
      readonly file: string;
      /** Elevation files inside the archive. */
      readonly entries: readonly string[];
    }
  | {
      readonly kind: 'question';
      readonly about: 'eightBit';
      readonly file: string;
      readonly lowest: number;
      readonly highest: number;
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
