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
   * Ends before the first nodes in which the sum of the characteristics, twice the head, is too low, and returns how many
   * nodes are done. Four nodes a turn, then the rest by themselves.
   */
  function sweep(downAt: number, upAt: number, nodes: number): number {
    const drag = rules[0] as number;
    const least = rules[1] as number;
    let i = 0;
    for (const turns = nodes - 3; i < turns; i += 4) {
      const j = (downAt + i) | 0;
      const k = (upAt + i) | 0;
      const d0 = down[j] as number;
      const u0 = up[k] as number;
      const d1 = down[(j + 1) | 0] as number;
      const u1 = up[(k + 1) | 0] as number;
      const d2 = down[(j + 2) | 0] as number;
      const u2 = up[(k + 2) | 0] as number;
      const d3 = down[(j + 3) | 0] as number;
      const u3 = up[(k + 3) | 0] as number;
      if (d0 + u0 < least || d1 + u1 < least || d2 + u2 < least || d3 + u3 < least) return i;
      const loss0 = drag * (d0 - u0) * Math.abs(d0 - u0);
      const loss1 = drag * (d1 - u1) * Math.abs(d1 - u1);
      const loss2 = drag * (d2 - u2) * Math.abs(d2 - u2);
      const loss3 = drag * (d3 - u3) * Math.abs(d3 - u3);
      down[j] = d0 - loss0;
      up[k] = u0 + loss0;
      down[(j + 1) | 0] = d1 - loss1;
      up[(k + 1) | 0] = u1 + loss1;
      down[(j + 2) | 0] = d2 - loss2;
      up[(k + 2) | 0] = u2 + loss2;
      down[(j + 3) | 0] = d3 - loss3;
      up[(k + 3) | 0] = u3 + loss3;
    }
    for (; i < nodes; i += 1) {
      const j = (downAt + i) | 0;
      const k = (upAt + i) | 0;
      const d = down[j] as number;
      const u = up[k] as number;
      if (d + u < least) return i;
      const loss = drag * (d - u) * Math.abs(d - u);
      down[j] = d - loss;
      up[k] = u + loss;
    }
    return nodes;
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
