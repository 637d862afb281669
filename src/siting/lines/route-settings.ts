import { SHALLOW_TRENCH } from '../../evaluation/site/line-profile.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';

/** How proposed routes are judged. Each figure is common practice, no source, unless it says otherwise; all may be changed. */
export interface RouteSettings {
  /** A line that must fall all the way falls at least so much per metre: air and silt move on. */
  readonly leastFall: Ratio;
  /** How far below the ground such a line may lie. */
  readonly deepest: Metres;
  /** How far above the ground such a line may lie, on stones or props. */
  readonly highest: Metres;
  /** Heights of such a pipe at a place that differ by less are looked at as one. */
  readonly slack: Metres;
  /** From this steepness on, rise over run, a metre of line is harder to lay. */
  readonly steepFrom: Ratio;
  /** Each unit of steepness beyond it makes a metre count as so much more: 1 adds a tenth for a tenth. */
  readonly steepWeight: Ratio;
  /** A bend costs as much as so many metres of line. */
  readonly bendAsLine: Metres;
  /** Head that friction takes per metre of delivery line while it is only proposed. */
  readonly friction: Ratio;
  /** Everything but the delivery line (pump, drive pipe, tank, work), as metres of delivery line of the same price. */
  readonly restAsLine: Metres;
  /** A second delivery route is shown when it asks for so much less or more lift, as a share of the lift. */
  readonly worthShowing: Ratio;
  /** How far around both ends to look, as a share of the distance between them, and at least so many metres. */
  readonly lookAround: Ratio;
  readonly lookAroundLeast: Metres;
  /** Heights that are read at most; beyond it they are read coarser. */
  readonly mostCells: number;
}

export const USUAL_ROUTE_SETTINGS: RouteSettings = {
  leastFall: 0.002,
  deepest: SHALLOW_TRENCH,
  highest: 0,
  slack: 0.2,
  steepFrom: 0.4,
  steepWeight: 1,
  bendAsLine: 3,
  friction: 0.01,
  restAsLine: 300,
  worthShowing: 0.05,
  lookAround: 0.75,
  lookAroundLeast: 60,
  mostCells: 4_000_000,
};
