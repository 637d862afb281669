import type { Position } from '../../geodesy/position.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { positionWords } from './position-words.ts';

/** Figures of a line that is proposed. */
export interface ProposedFigures {
  readonly length: number;
  readonly governingLift: number | null;
  readonly cut: { readonly below: number; readonly above: number } | null;
}

/** A proposed line in a few figures. */
export function proposedWords({ length, governingLift, cut }: ProposedFigures, units: UnitSystem): string {
  const height = (value: number) => writeQuantity(value, 'height', units);
  const facts = [
    `${writeQuantity(length, 'length', units)} along the ground`,
    ...(governingLift === null ? [] : [`highest lift on the way ${height(governingLift)}`]),
    ...(cut === null ? [] : [`at most ${height(cut.below)} deep to keep falling`]),
  ];
  return facts.join(', ');
}

/** Heights that a proposal stands on. */
export interface ProposedOn {
  readonly file: string;
  /** How many of the file's cells a cell is wide that was looked at. */
  readonly coarser: number;
  readonly cell: { readonly width: number; readonly height: number };
}

/** Says so where the heights were read in larger cells than the file's own; null where they were not. */
export function coarserSentence({ file, coarser, cell }: ProposedOn, units: UnitSystem): string | null {
  if (coarser <= 1) return null;
  const size = writeQuantity(Math.max(cell.width, cell.height), 'length', units);
  return `The two lie so far apart that ${file} was read in cells of ${size}, ${Math.round(coarser)} times its own: banks and gullies narrower than that were not seen.`;
}

/** What a line that is laid although the ground stands too high asks for; null where no trench helps. */
export function anywayWords(depth: number, units: UnitSystem): string {
  return `Use this line anyway, in a trench of ${writeQuantity(depth, 'height', units)}`;
}

/** Why there is no line to propose. */
export type NoProposal =
  | {
      readonly kind: 'blocked';
      readonly at: Position;
      readonly excess: number;
    }
  | { readonly kind: 'no-height'; readonly at: Position }
  | { readonly kind: 'cut-off' }
  | { readonly kind: 'too-wide' };

export function noProposalSentence(why: NoProposal, units: UnitSystem): string {
  switch (why.kind) {
    case 'blocked':
      return `No line falls all the way. On the best one the ground at ${positionWords(why.at)} stands ${writeQuantity(why.excess, 'height', units)} too high for a shallow trench.`;
    case 'no-height':
      return `The elevation file has no height at ${positionWords(why.at)}.`;
    case 'cut-off':
      return 'The elevation file has no heights on any way between the two.';
    case 'too-wide':
      return 'The two lie too far apart to be searched between. Place a point on the way, or draw the line by hand.';
  }
}
