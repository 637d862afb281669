import type { UnitSystem } from '../../units/kind.ts';
import type { Metres } from '../../units/quantity.ts';
import { UNITS } from '../../units/unit.ts';
import { valueAt } from '../../units/value-at.ts';
import type { Box } from '../figure/text-room.ts';
import type { ProfileLeg, ProfileView } from './profile-view.ts';

/** The unit of both axes. */
export interface AxisUnit {
  readonly metres: number;
  readonly symbol: string;
}

const AXIS_UNITS: Readonly<Record<UnitSystem, AxisUnit>> = {
  metric: { metres: UNITS.metre.factor, symbol: UNITS.metre.label },
  us: { metres: UNITS.foot.factor, symbol: UNITS.foot.label },
};

/** Room around the plot for the staff, the chain of distances and the names of the points, px. */
const MARGIN = { left: 62, right: 22, top: 5, bottom: 38 } as const;
/** Height of a row of names above the plot, px. */
export const HEAD_ROW = 15;
/** Rows where nothing asks for more. */
export const USUAL_ROWS = 3;
/** A profile that is flat still shows this much height, m. */
const LEAST_HEIGHT = 2;
/** Clear room above and below the heights, as a share of their span. */
const CLEARANCE = 0.12;

/** From metres along and above to pixels. */
export interface ProfileScale {
  readonly plot: Box;
  readonly unit: AxisUnit;
  readonly length: Metres;
  readonly heights: { readonly from: Metres; readonly to: Metres };
  /** How many times larger heights are drawn than distances. */
  readonly exaggeration: number;
  x(at: Metres): number;
  y(height: Metres): number;
}

/** Fits a profile into its size, with so many rows of names above it; null while no leg has a height to draw. */
export function profileScale(view: ProfileView, rows = USUAL_ROWS): ProfileScale | null {
  const heights = heightRange(view);
  const length = Math.max(0, ...view.legs.map((leg) => leg.offset + leg.ground.horizontal));
  if (heights === null || length <= 0) return null;
  const top = MARGIN.top + rows * HEAD_ROW;
  const plot: Box = {
    left: MARGIN.left,
    top,
    width: Math.max(60, view.size.width - MARGIN.left - MARGIN.right),
    height: Math.max(40, view.size.height - top - MARGIN.bottom),
  };
  const perMetreAlong = plot.width / length;
  const perMetreUp = plot.height / (heights.to - heights.from);
  return {
    plot,
    unit: AXIS_UNITS[view.units],
    length,
    heights,
    exaggeration: perMetreUp / perMetreAlong,
    x: (at) => plot.left + at * perMetreAlong,
    y: (height) => plot.top + (heights.to - height) * perMetreUp,
  };
}

function heightRange(view: ProfileView): { from: Metres; to: Metres } | null {
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  const include = (height: number) => {
    from = Math.min(from, height);
    to = Math.max(to, height);
  };
  for (const leg of view.legs) includeLeg(leg, include);
  for (const station of view.stations) if (station.level !== null) include(station.level);
  if (from > to) return null;
  const short = Math.max(0, LEAST_HEIGHT - (to - from)) / 2;
  const clear = CLEARANCE * (to - from + 2 * short);
  return { from: from - short - clear, to: to + short + clear };
}

function includeLeg(leg: ProfileLeg, include: (height: number) => void): void {
  for (let sample = 0; sample < leg.ground.at.length; sample += 1) {
    if (leg.ground.known[sample] !== 1) continue;
    const height = valueAt(leg.ground.ground, sample);
    const spread = leg.spread?.[sample] ?? 0;
    include(height - spread);
    include(height + spread);
  }
  for (const head of leg.result?.running?.head ?? []) include(head);
  if (leg.result?.still != null) include(leg.result.still);
}
