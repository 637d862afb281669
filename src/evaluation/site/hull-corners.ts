import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';

/** The ground along a line, by sample. */
export interface BrowQuestion {
  readonly at: ArrayLike<Metres>;
  readonly height: ArrayLike<Metres>;
  readonly known: ArrayLike<number>;
  /** How far a brow stands above the straight line between its neighbours to count. */
  readonly prominence: Metres;
  /** Samples of the line's summits. */
  readonly summits: readonly number[];
  /** Most places wanted. */
  readonly most: number;
}

/** Heights closer than this are the same: rounding. */
const SAME: Metres = 1e-6;

/** A place where the water line can come down to the pipe. */
export interface Brow {
  readonly sample: number;
  /** Height of the pipe there. */
  readonly height: Metres;
  /** Whether the pipe rises to it, so that air gathers there; air leaves a pipe that falls all the way by its upper end. */
  readonly summit: boolean;
}

/**
 * Places that the falling water line of a full pipe can touch first, the highest first: summits that no later one overtops,
 * and brows, from which the ground falls more steeply than it came.
 *
 * A straight line that sinks onto the ground meets a corner of the ground's upper hull, behind its highest place. After the
 * summits, those corners are taken that stand out most above the straight lines between the ones taken, as long as it is
 * by `prominence`. A brow without any rise holds the water up as a summit does: level pipe needs head.
 */
export function browsOf(question: BrowQuestion): Brow[] {
  const summits = summitsOf(question).slice(0, question.most);
  const places = (line: BrowQuestion, samples: readonly number[], summit = false) =>
    samples.map((sample) => ({ sample, height: z(line.height, sample), summit }));
  const found = places(question, summits, true);
  const hull = fallingHull(question);
  const [top, last] = [hull[0], hull.at(-1)];
  if (top === undefined || last === undefined || top === last) return found;
  const first = firstKnown(question.known);
  if (top === first || summits[0] === top) found.push(...places(question, standingOut(question, hull, summits)));
  else if (z(question.height, top) - z(question.height, last) >= question.prominence) {
    const dug = dugIn(question, first);
    found.push(...places(dug, standingOut(dug, [first, ...fallingHull(dug)], summits)));
  }
  return found.toSorted((a, b) => b.height - a.height || a.sample - b.sample);
}

/** The line with whatever stands above its start dug in: where no summit is higher, that is a trench. */
function dugIn(question: BrowQuestion, first: number): BrowQuestion {
  const start = z(question.height, first);
  return { ...question, height: Float64Array.from(question.height, (height) => Math.min(height, start)) };
}

/** Summits that can govern at some flow, the highest first: ground and loss up to a place both count, and the loss grows. */
function summitsOf(question: BrowQuestion): number[] {
  const { height } = question;
  const tops = question.summits.map((sample) => lastAsHigh(question, sample));
  return tops
    .filter((s) => !tops.some((other) => other > s && z(height, other) >= z(height, s)))
    .toSorted((a, b) => z(height, b) - z(height, a));
}

const z = (height: ArrayLike<Metres>, i: number): Metres => valueAt(height, i);

function firstKnown(known: ArrayLike<number>): number {
  let i = 0;
  while (i < known.length && !known[i]) i++;
  return i;
}

/** The last of the samples that stay as high as a summit: level ground uses up head as any other. */
function lastAsHigh({ height, known }: BrowQuestion, summit: number): number {
  let last = summit;
  for (let i = summit + 1; i < height.length; i++) {
    if (!known[i]) continue;
    if (z(height, i) < z(height, summit) - SAME) break;
    last = i;
  }
  return last;
}

/** Corners of the upper hull from the highest place to the end of the line. */
function fallingHull({ at, height, known }: BrowQuestion): number[] {
  let hull: number[] = [];
  for (let i = 0; i < height.length; i++) {
    if (!known[i]) continue;
    const top = hull[0];
    if (top === undefined || z(height, i) >= z(height, top) - SAME) hull = [];
    while (
      hull.length > 1 &&
      over({ at, height }, valueAt(hull, hull.length - 2), valueAt(hull, hull.length - 1), i) <= 0
    ) {
      hull.pop();
    }
    hull.push(i);
  }
  return hull;
}

/** How far a sample stands above the straight line between two others. */
function over({ at, height }: Pick<BrowQuestion, 'at' | 'height'>, from: number, sample: number, to: number): Metres {
  const [start, here, end] = [valueAt(at, from), valueAt(at, sample), valueAt(at, to)];
  const share = end > start ? (here - start) / (end - start) : 0;
  return z(height, sample) - z(height, from) - share * (z(height, to) - z(height, from));
}

/** Corners between the ends that stand out beside the summits, the greatest first. */
function standingOut(question: BrowQuestion, corners: readonly number[], summits: readonly number[]): number[] {
  const brows: number[] = [];
  const taken = [...summits.filter((i) => corners.includes(i)), corners[0] ?? 0, corners.at(-1) ?? 0];
  while (summits.length + brows.length < question.most) {
    taken.sort((a, b) => a - b);
    const next = farthest(question, corners, taken);
    if (next === null) break;
    brows.push(next);
    taken.push(next);
  }
  return brows;
}

/** The corner that stands out most above the straight lines between those taken. */
function farthest(question: BrowQuestion, corners: readonly number[], taken: readonly number[]): number | null {
  let found: number | null = null;
  let most = question.prominence;
  let after = 1;
  for (const corner of corners) {
    while (corner > (taken[after] ?? corner)) after++;
    const height = over(question, valueAt(taken, after - 1), corner, taken[after] ?? corner);
    if (height < most || taken.includes(corner)) continue;
    found = corner;
    most = height;
  }
  return found;
}
