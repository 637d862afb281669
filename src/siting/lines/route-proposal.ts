import { DEEPEST_TRENCH, trenchFor } from '../../evaluation/site/line-profile.ts';
import type { Position } from '../../geodesy/position.ts';
import type { RouteRole } from '../../plan/model/plan.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';
import type { RouteSettings } from './route-settings.ts';

/** An end of a line and how far above the ground the water leaves or enters it: a tank's inlet, a pump's waste valve. */
export interface RouteEnd {
  readonly position: Position;
  readonly height: Metres;
}

export interface RouteRequest {
  readonly from: RouteEnd;
  readonly to: RouteEnd;
  readonly role: RouteRole;
  readonly settings: RouteSettings;
}

/** A line to accept or to bend. */
export interface ProposedRoute {
  readonly vertices: readonly Position[];
  /** Along the ground. */
  readonly length: Metres;
  /** On the ellipsoid. */
  readonly horizontal: Metres;
  /** Highest ground on it. */
  readonly highest: Metres;
  /** From the pump to the highest of ground and outlet; null unless it is a delivery line. */
  readonly governingLift: Metres | null;
  /** How far below the ground it must lie to fall all the way, and how far above; null unless it has to fall. */
  readonly cut: { readonly below: Metres; readonly above: Metres } | null;
}

/** Where the heights came from that a proposal stands on. */
export interface ProposalGround {
  readonly file: string;
  /** How many of the file's cells one of the cells looked at is wide. */
  readonly coarser: Ratio;
  /** Width and height of a cell looked at. */
  readonly cell: { readonly width: Metres; readonly height: Metres };
}

export type RouteProposal =
  /** `other` differs in kind: longer with less lift, or shorter with more. */
  | ({ readonly kind: 'route'; readonly other: ProposedRoute | null; readonly ground: ProposalGround } & ProposedRoute)
  /** Nothing falls all the way: on the best way the line would have to lie `excess` deeper than allowed at a place. */
  | {
      readonly kind: 'blocked';
      readonly at: Position;
      readonly excess: Metres;
      /** That way with as deep a trench as it needs; null where no trench helps, since the end lies too high. */
      readonly anyway: ProposedRoute | null;
      readonly ground: ProposalGround;
    }
  /** Voids or the edge of the heights lie between the ends. */
  | { readonly kind: 'cut-off'; readonly ground: ProposalGround }
  /** An end has no height. */
  | { readonly kind: 'no-height'; readonly at: Position }
  /** The search ran out of memory before it was done. */
  | { readonly kind: 'too-wide'; readonly ground: ProposalGround };

/** The best of the lines that were refused with the trench that it needs; null where there is none, or nobody digs so deep by hand. */
export function laidAnyway(proposal: RouteProposal): { readonly route: ProposedRoute; readonly trench: Metres } | null {
  if (proposal.kind !== 'blocked' || proposal.anyway === null) return null;
  const trench = trenchFor(proposal.anyway.cut?.below ?? 0);
  return trench > DEEPEST_TRENCH ? null : { route: proposal.anyway, trench };
}
