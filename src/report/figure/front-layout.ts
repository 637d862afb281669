import { roundTicks } from './ticks.ts';

/** A point to be drawn with its range, in values. */
export interface RangedPoint {
  readonly x: number;
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export interface AxisTick {
  readonly at: number;
  readonly value: number;
}

export interface RangedLayout {
  readonly width: number;
  readonly height: number;
  readonly frame: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly xTicks: readonly AxisTick[];
  readonly yTicks: readonly AxisTick[];
  readonly points: readonly {
    readonly x: number;
    readonly low: number;
    readonly likely: number;
    readonly high: number;
  }[];
}

const MARGIN = { left: 58, right: 14, top: 12, bottom: 40 } as const;
const X_TICKS = 5;
const Y_TICKS = 5;

/** Where points with ranges lie in a figure of a size: both axes from nought, values to pixels. */
export function rangedLayout(points: readonly RangedPoint[], width: number, height: number): RangedLayout {
  const frame = { left: MARGIN.left, right: width - MARGIN.right, top: MARGIN.top, bottom: height - MARGIN.bottom };
  const mostX = Math.max(1e-9, ...points.map((p) => p.x)) * HEADROOM;
  const mostY = Math.max(1e-9, ...points.map((p) => p.high)) * HEADROOM;
  const x = (value: number): number => frame.left + ((frame.right - frame.left) * value) / mostX;
  const y = (value: number): number => frame.bottom - ((frame.bottom - frame.top) * value) / mostY;
  const ticks = (most: number, count: number, at: (value: number) => number): AxisTick[] =>
    roundTicks({ from: 0, to: most }, count).values.map((value) => ({ at: at(value), value }));
  return {
    width,
    height,
    frame,
    xTicks: ticks(mostX, X_TICKS, x),
    yTicks: ticks(mostY, Y_TICKS, y),
    points: points.map((p) => ({ x: x(p.x), low: y(p.low), likely: y(p.likely), high: y(p.high) })),
  };
}

const HEADROOM = 1.06;

/** A strip of heights below a level against length. */
export interface StripLayout {
  readonly width: number;
  readonly height: number;
  readonly frame: RangedLayout['frame'];
  readonly path: string;
  readonly xTicks: readonly AxisTick[];
  readonly yTicks: readonly AxisTick[];
  readonly bands: readonly { readonly x: number; readonly width: number }[];
}

/** Where a strip of fall against length lies: the level above, the fall downwards; stretches as bands. */
export function stripLayout(
  strip: {
    readonly at: ArrayLike<number>;
    readonly fall: ArrayLike<number>;
    readonly fits: readonly { readonly from: number; readonly to: number }[];
  },
  width: number,
  height: number,
): StripLayout {
  const frame = { left: MARGIN.left, right: width - MARGIN.right, top: MARGIN.top, bottom: height - MARGIN.bottom };
  const count = strip.at.length;
  const far = Math.max(1e-9, strip.at[count - 1] ?? 0);
  let deepest = 1e-9;
  for (let i = 0; i < count; i++) deepest = Math.max(deepest, strip.fall[i] ?? 0);
  const x = (value: number): number => frame.left + ((frame.right - frame.left) * value) / far;
  const y = (value: number): number =>
    frame.top + ((frame.bottom - frame.top) * Math.max(0, value)) / (deepest * HEADROOM);
  const every = Math.max(1, Math.floor(count / MOST_CORNERS));
  const corners: string[] = [];
  for (let i = 0; i < count; i += every) {
    corners.push(`${x(strip.at[i] ?? 0).toFixed(1)} ${y(strip.fall[i] ?? 0).toFixed(1)}`);
  }
  return {
    width,
    height,
    frame,
    path: corners.length > 0 ? `M${corners.join('L')}` : '',
    xTicks: roundTicks({ from: 0, to: far }, X_TICKS).values.map((value) => ({ at: x(value), value })),
    yTicks: roundTicks({ from: 0, to: deepest }, STRIP_TICKS).values.map((value) => ({ at: y(value), value })),
    bands: strip.fits.map(({ from, to }) => ({ x: x(from), width: Math.max(1, x(to) - x(from)) })),
  };
}

const MOST_CORNERS = 400;
const STRIP_TICKS = 4;
