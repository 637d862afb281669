import type { Estimate, Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import type { SiteNote } from '../places/site-note.ts';
import type { SystemName } from './front.ts';

/** A place at which a pump could stand, with what would arrive from there. */
export interface SitePlace {
  readonly pump: Position;
  readonly ground: Metres;
  readonly standpipe: Position | null;
  readonly fall: Estimate;
  readonly supply: Metres;
  readonly drive: Metres;
  /** Metres of drive pipe that have to be dug in, and how deep at most. */
  readonly trench: Metres;
  readonly depth: Metres;
  /** m³ a day at the best tank. */
  readonly delivery: Estimate;
  /** Why not more. */
  readonly because: SiteNote;
  /** The place with its lines as a plan. */
  readonly plan: Plan;
}

/** A whole system that does not fail. */
export interface SiteSystem {
  readonly name: SystemName;
  /** m³ a day. */
  readonly delivery: Estimate;
  readonly pipe: Metres;
  readonly cost: number | null;
  readonly runs: Verdict;
  readonly arrives: Verdict;
  readonly place: number;
  readonly tank: string;
  readonly plan: Plan;
}

/** The stream below the source as a strip: fall against length, and where standpipe and drive pipe fit. */
export interface ValleyStrip {
  /** Level length along the stream, m, and the fall below the water at the source, m. */
  readonly at: Float64Array;
  readonly fall: Float64Array;
  /** Lengths between which a pump has the least fall and a drive pipe keeps both rules of length. */
  readonly fits: readonly { readonly from: Metres; readonly to: Metres }[];
  readonly line: readonly Position[];
}

export interface SiteAnswer {
  readonly places: readonly SitePlace[];
  /** The best front by outlay, the best of each kind named. */
  readonly systems: readonly SiteSystem[];
  readonly valley: ValleyStrip | null;
  readonly notes: readonly SiteNote[];
  /** What a system's outlay is counted in. */
  readonly outlay: 'metres' | 'cost';
}
