import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import type { Evaluation, TankResult } from '../../evaluation/result/evaluation.ts';
import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { TerrainAbout } from '../../terrain/grid/ground.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import type { MapContour } from '../plan-map/plan-map-figure.ts';

const ORDER: readonly (Verdict | null)[] = ['holds', 'measure', 'fails', null];

/** The tanks that a short sheet speaks of: those that were kept, else the one of the candidates that gets furthest. */
export function shownTanks({ plan, site }: PrintSource): readonly TankResult[] {
  const tanks = site?.evaluation.tanks ?? [];
  const standing = (wanted: string) =>
    tanks.filter(({ id }) => plan.points.some((p) => p.id === id && p.role === 'tank' && p.standing === wanted));
  const kept = standing('kept');
  if (kept.length > 0) return kept;
  const [best] = standing('candidate').toSorted(byPromise);
  return best === undefined ? [] : [best];
}

function byPromise(one: TankResult, other: TankResult): number {
  const rank = ORDER.indexOf(one.verdict) - ORDER.indexOf(other.verdict);
  return rank !== 0 ? rank : arrives(other) - arrives(one);
}

function arrives({ line }: TankResult): number {
  return line?.deliveryPerDay?.likely ?? 0;
}

/** So many tanks find room on the owner’s pages. */
export const MOST_TANKS = 3;

/** Of the tanks that a short sheet speaks of as many as it has room for. */
export function spokenTanks(source: PrintSource): readonly TankResult[] {
  return shownTanks(source).slice(0, MOST_TANKS);
}

/** A plan on its ground: all that is known once an elevation file is open. */
export interface PrintedSite {
  readonly ground: Ground;
  readonly about: TerrainAbout;
  readonly evaluation: Evaluation;
}

/** Everything a printed sheet is made from. Nothing in it is looked up: date, versions and contours are handed in. */
export interface PrintSource {
  readonly plan: Plan;
  readonly units: UnitSystem;
  /** Null before there is ground; the sheet then holds what was drawn. */
  readonly site: PrintedSite | null;
  readonly contours: readonly MapContour[];
  /** Figures of a search for a place that were reckoned for this plan; absent without one. */
  readonly found?: readonly { readonly figure: FigureNode; readonly caption: string }[];
  /** Whose the map tiles are that were shown while this was made; left out when none were. */
  readonly tilesAttribution?: string;
  readonly program: { readonly name: string; readonly version: string };
  /** Day of printing, as it is to be read. */
  readonly date: string;
  /** The address of the planner, for a code to photograph; absent for none. */
  readonly planner?: string;
}
