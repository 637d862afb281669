import type { Plan } from '../../plan/model/plan.ts';
import type { CubicMetres, Metres } from '../../units/quantity.ts';
import type { PlaceSettings } from '../places/pump-places.ts';
import type { AvoidedArea } from '../reach/site-window.ts';

/** What places and systems are looked for. */
export interface SiteRequest {
  /**
   * Source with its readings, herd, prices, units and confidence; tanks that stand in it are those to be reached. Pump and pipe
   * of a delivery line stand in it where the user has them already.
   */
  readonly base: Plan;
  /** Lift above the water at the source where no tank stands; null takes a usual one. */
  readonly lift: Metres | null;
  readonly avoid: readonly AvoidedArea[];
  /** A delivery pipe that the user has and how many metres; null for none. */
  readonly ownPipe: { readonly pipe: string; readonly length: Metres } | null;
  readonly settings: PlaceSettings;
  /** How far around source and tanks to look. */
  readonly margin: Metres;
  readonly mostCells: number;
  /** How many places to give at most, and how far apart they lie at least. */
  readonly mostPlaces: number;
  readonly apart: Metres;
}

/** Farther apart than a stone's throw. Common practice, no source. */
export const USUAL_SEARCH = { margin: 600, mostCells: 4_000_000, mostPlaces: 5, apart: 30 } as const;

/** A need of so much a day, as a herd of one. */
export const needAsHerd = (needPerDay: CubicMetres, label: string): Plan['herd'] => [
  { kind: 'own', label, needPerDay, count: 1 },
];
