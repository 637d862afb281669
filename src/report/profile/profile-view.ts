import type { LineResult } from '../../evaluation/result/evaluation.ts';
import type { PointId, PointRole, RouteId, RouteRole, UnitSystem } from '../../plan/model/plan.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';

/** One route in the profile: where it starts along the distance axis, its ground, and what the evaluation says of it. */
export interface ProfileLeg {
  readonly id: RouteId;
  readonly role: RouteRole;
  readonly name: string;
  readonly offset: Metres;
  readonly ground: GroundLine;
  readonly result: LineResult | null;
  /** How much deeper than in a shallow trench the pipe lies below the ground, m. */
  readonly dug: Metres;
  /** Half width of the ground's uncertainty band at each sample, m; null draws no band. */
  readonly spread: Float64Array | null;
  /** A leg laid over the others for comparison is drawn as its pipe line alone; that of another plan in dots. */
  readonly emphasis: 'main' | 'compared' | 'alternative';
}

/** A point of the plan on the profile. */
export interface ProfileStation {
  readonly id: PointId;
  readonly role: PointRole;
  readonly name: string;
  readonly at: Metres;
  readonly ground: Metres | null;
  /** Water or valve level at this point: water surface, inlet, valve outlet. */
  readonly level: Metres | null;
}

export interface ProfileView {
  readonly title: string;
  readonly legs: readonly ProfileLeg[];
  readonly stations: readonly ProfileStation[];
  readonly units: UnitSystem;
  readonly size: { readonly width: number; readonly height: number };
  /** Distance along the axis at which the cursor stands; null for none. */
  readonly cursor: Metres | null;
  /** Prefix of the ids inside the figure, so that two figures can share a page. */
  readonly key: string;
}
