/** Most nodes of a pipe. */
export const mostNodes = 4096;
/** Steps between two moves of the windows back to their start. */
export const slideRoom = 4096;

/**
 * The two lanes on which the characteristics of the pipe at work travel: one pair for the whole program.
 *
 * Arrays that never change are constants to the compiler, which then leaves out the checks of their kind and length at
 * every access; that makes the sweep nearly twice as fast as with arrays of each pipe's own.
 */
export const downLane = new Float64Array(mostNodes + slideRoom);
export const upLane = new Float64Array(mostNodes + slideRoom);

/**
 * Takes the friction of one reach from every characteristic in the two windows.
 *
 * Ends before the first pair of nodes in which the sum of the characteristics, twice the head, lies below `least`, and
 * returns how many nodes are done. Two nodes a turn; an odd one at the end by itself.
 */
export function sweepLanes(downAt: number, upAt: number, nodes: number, drag: number, least: number): number {
  const pairs = nodes - 1;
  let i = 0;
  for (; i < pairs; i += 2) {
    const j = (downAt + i) | 0;
    const k = (upAt + i) | 0;
    const d = downLane[j] as number;
    const u = upLane[k] as number;
    const nextD = downLane[(j + 1) | 0] as number;
    const nextU = upLane[(k + 1) | 0] as number;
    if (d + u < least || nextD + nextU < least) return i;
    const twice = d - u;
    const nextTwice = nextD - nextU;
    const loss = drag * twice * Math.abs(twice);
    const nextLoss = drag * nextTwice * Math.abs(nextTwice);
    downLane[j] = d - loss;
    upLane[k] = u + loss;
    downLane[(j + 1) | 0] = nextD - nextLoss;
    upLane[(k + 1) | 0] = nextU + nextLoss;
  }
  return i < nodes ? sweepOne(downAt + i, upAt + i, drag, least, i) : nodes;
}

function sweepOne(j: number, k: number, drag: number, least: number, done: number): number {
  const d = downLane[j] as number;
  const u = upLane[k] as number;
  if (d + u < least) return done;
  const loss = drag * (d - u) * Math.abs(d - u);
  downLane[j] = d - loss;
  upLane[k] = u + loss;
  return done + 1;
}
