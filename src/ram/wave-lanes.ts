/** Most nodes of a pipe. */
export const mostNodes = 4096;
/** Steps between two moves of the windows back to their start. */
export const slideRoom = 4096;

/**
 * The two lanes on which the characteristics of the pipe at work travel: one pair for the whole program.
 *
 * Arrays that never change are constants to the compiler, which then leaves out the checks of their kind and length at
 * every access; that makes the sweep nearly twice as fast as over arrays of each pipe's own. They are made in a function,
 * since a bundler may turn constants of a module into variables.
 */
export const lanes = makeLanes();

function makeLanes() {
  const down = new Float64Array(mostNodes + slideRoom);
  const up = new Float64Array(mostNodes + slideRoom);
  /** Volume of the cavity at each node, and twice the head at which its water boils. */
  const cavities = new Float64Array(mostNodes);
  const twiceFloors = new Float64Array(mostNodes);
  /** Friction factor of the characteristics' difference; least sum of two that is surely water; growth of a cavity. */
  const rules = new Float64Array(3);

  /**
   * Takes the friction of one reach from every characteristic in the two windows.
   *
   * Ends before the first pair of nodes in which the sum of the characteristics, twice the head, is too low, and returns
   * how many nodes are done. Two nodes a turn; an odd one at the end by itself.
   */
  function sweep(downAt: number, upAt: number, nodes: number): number {
    const drag = rules[0] as number;
    const least = rules[1] as number;
    const pairs = nodes - 1;
    let i = 0;
    for (; i < pairs; i += 2) {
      const j = (downAt + i) | 0;
      const k = (upAt + i) | 0;
      const d = down[j] as number;
      const u = up[k] as number;
      const nextD = down[(j + 1) | 0] as number;
      const nextU = up[(k + 1) | 0] as number;
      if (d + u < least || nextD + nextU < least) return i;
      const twice = d - u;
      const nextTwice = nextD - nextU;
      const loss = drag * twice * Math.abs(twice);
      const nextLoss = drag * nextTwice * Math.abs(nextTwice);
      down[j] = d - loss;
      up[k] = u + loss;
      down[(j + 1) | 0] = nextD - nextLoss;
      up[(k + 1) | 0] = nextU + nextLoss;
    }
    return i < nodes ? sweepLast((downAt + i) | 0, (upAt + i) | 0, i) : nodes;
  }

  function sweepLast(j: number, k: number, done: number): number {
    const d = down[j] as number;
    const u = up[k] as number;
    if (d + u < (rules[1] as number)) return done;
    const loss = (rules[0] as number) * (d - u) * Math.abs(d - u);
    down[j] = d - loss;
    up[k] = u + loss;
    return done + 1;
  }

  /**
   * The same from node `first` on, with a cavity wherever the head would fall below the vapour's; returns the
   * first node with one, or `nodes`.
   *
   * A cavity is a free surface at the vapour's head on both sides; it grows by the difference of the velocities.
   */
  function sweepBoiling(downAt: number, upAt: number, nodes: number, first: number): number {
    const drag = rules[0] as number;
    const grow = rules[2] as number;
    const last = nodes - 1;
    let firstOpen = nodes;
    for (let i = first; i < nodes; i += 1) {
      const j = (downAt + i) | 0;
      const k = (upAt + i) | 0;
      const d = down[j] as number;
      const u = up[k] as number;
      const floor = twiceFloors[i] as number;
      const before = cavities[i] as number;
      if ((before > 0 || d + u < floor) && i > 0 && i < last) {
        const volume = Math.max(0, before + grow * (floor - d - u));
        cavities[i] = volume;
        if (volume > 0) {
          if (i < firstOpen) firstOpen = i;
          const below = floor - 2 * u;
          const above = 2 * d - floor;
          down[j] = floor - u - drag * below * Math.abs(below);
          up[k] = floor - d + drag * above * Math.abs(above);
          continue;
        }
      }
      const twice = d - u;
      const loss = drag * twice * Math.abs(twice);
      down[j] = d - loss;
      up[k] = u + loss;
    }
    return firstOpen;
  }

  return { down, up, cavities, twiceFloors, rules, sweep, sweepBoiling };
}
