import type { QuantityKind } from '../../units/kind.ts';

/** What a sentence may use. */
export interface Words {
  /** Name of the point or route. */
  readonly about: string;
  /** The value with its range. */
  readonly value: string;
  readonly likely: string;
  readonly limit: string;
  /** A number that the finding carries, written in a kind's unit. */
  readonly fact: (name: string, kind: QuantityKind) => string;
  /** A word that the finding carries, turned into the reader's. */
  readonly text: (name: string) => string;
}

/** How one finding is told. */
export interface FindingText {
  /** A few words for a heading, whatever the verdict. */
  readonly title: string;
  /** The same once it fails, as the reason in a sentence: “too little water for the pump”; left out, the title serves. */
  readonly wrong?: string;
  readonly sentence: (w: Words) => string;
  /** What to do when it fails; left out where it cannot. */
  readonly fails?: (w: Words) => string;
  /** What to do when it must be measured. */
  readonly measure: (w: Words) => string;
}

/** A height above something in words: below it where it is negative. */
export function aboveWords({ value, likely }: Pick<Words, 'value' | 'likely'>): string {
  return likely.startsWith('−') ? `${value.replaceAll('−', '')} below` : `${value} above`;
}

/** The same words whatever the numbers. */
export const always = (text: string) => () => text;
