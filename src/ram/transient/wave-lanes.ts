/** Nodes for which a half of the lanes has room, one to spare. */
export const mostNodes = 4096;

/** Places in `rules`. */
export const rule = { drag: 0, least: 1, grow: 2, fromInlet: 3, fromPump: 4, toInlet: 5, toPump: 6, ease: 7 } as const;

/**
 * The two lanes on which the characteristics of the pipe at work travel: one pair for the whole program.
 *
 * Arrays that never change are constants to the compiler, which then leaves out the checks of their kind and length at
 * every access; that makes a sweep nearly twice as fast as over arrays of each pipe's own. They are made in a function,
 * since a bundler may turn constants of a module into variables. Each lane has two halves of `mostNodes`: a sweep reads the
 * one that starts at `from` and writes the other, which starts at `to`.
 */
export const lanes = makeLanes();

function makeLanes() {
  const { drag: DRAG, least: LEAST, grow: GROW, fromInlet: FROM_INLET } = rule;
  const { fromPump: FROM_PUMP, toInlet: TO_INLET, toPump: TO_PUMP, ease: EASE } = rule;
  const down = new Float64Array(2 * mostNodes);
  const up = new Float64Array(2 * mostNodes);
  /** Volume of the cavity at each node, and twice the head at which its water boils. */
  const cavities = new Float64Array(mostNodes);
  const twiceFloors = new Float64Array(mostNodes);
  /**
   * Friction factor of the difference of two characteristics; least sum of two that is surely water at the inlet; growth of
   * a cavity; what the ends have sent out last, and what has arrived at them; by how much less is enough a node further down.
   */
  const rules = new Float64Array(8);

  /** Puts what the ends have sent out on the lanes. */
  function place(from: number, nodes: number): void {
    down[from] = rules[FROM_INLET] as number;
    up[(from + nodes - 1) | 0] = rules[FROM_PUMP] as number;
  }

  /** Says what arrives at the ends after the next step, or false when a head beside them may be too low. */
  function lookAhead(from: number, nodes: number): boolean {
    place(from, nodes);
    const drag = rules[DRAG] as number;
    const j = (from + 1) | 0;
    const k = (from + nodes - 2) | 0;
    const dj = down[j] as number;
    const uj = up[j] as number;
    const dk = down[k] as number;
    const uk = up[k] as number;
    if (dj + uj < (twiceFloors[1] as number) || dk + uk < (twiceFloors[nodes - 2] as number)) return false;
    rules[TO_INLET] = uj + drag * (dj - uj) * Math.abs(dj - uj);
    rules[TO_PUMP] = dk - drag * (dk - uk) * Math.abs(dk - uk);
    return true;
  }

  /** What has arrived at the ends of a swept pipe. */
  function lookAtEnds(at: number, nodes: number): void {
    rules[TO_INLET] = up[at] as number;
    rules[TO_PUMP] = down[(at + nodes - 1) | 0] as number;
  }

  /**
   * Two time steps at once, four node-steps a turn; false, with nothing lost, when a head somewhere may be too low.
   *
   * At step one node k gets what left node k − 1 downwards and node k + 1 upwards; what leaves it then is on its way to
   * nodes k + 1 and k − 1 of step two. So one pass over the nodes, with the last two departures kept, does both. What the
   * ends send out at step one must be in `rules`. At least four nodes; node 1 is known to be water.
   */
  function sweepPair(from: number, to: number, nodes: number): boolean {
    const drag = rules[DRAG] as number;
    const ease = rules[EASE] as number;
    // What node i − 1 asks at least, the first of those that a turn looks at.
    let least = (rules[LEAST] as number) - ease;
    const inlet = rules[FROM_INLET] as number;
    const pump = rules[FROM_PUMP] as number;
    const d0 = down[from] as number;
    const u0 = up[from] as number;
    const d1 = down[(from + 1) | 0] as number;
    const u1 = up[(from + 1) | 0] as number;
    const loss1 = drag * (d1 - u1) * Math.abs(d1 - u1);
    const toInlet = u1 + loss1;
    let older = d0 - drag * (d0 - u0) * Math.abs(d0 - u0);
    let newer = d1 - loss1;
    down[(to + 1) | 0] = inlet - drag * (inlet - toInlet) * Math.abs(inlet - toInlet);
    let i = 2;
    for (const turns = nodes - 1; i < turns; i += 2) {
      const j = (from + i) | 0;
      const k = (to + i) | 0;
      const da = down[j] as number;
      const ua = up[j] as number;
      const db = down[(j + 1) | 0] as number;
      const ub = up[(j + 1) | 0] as number;
      const lossA = drag * (da - ua) * Math.abs(da - ua);
      const lossB = drag * (db - ub) * Math.abs(db - ub);
      const upA = ua + lossA;
      const upB = ub + lossB;
      if (da + ua < least || db + ub < least || older + upA < least || newer + upB < least) return false;
      const nextA = drag * (older - upA) * Math.abs(older - upA);
      const nextB = drag * (newer - upB) * Math.abs(newer - upB);
      down[k] = older - nextA;
      up[(k - 2) | 0] = upA + nextA;
      down[(k + 1) | 0] = newer - nextB;
      up[(k - 1) | 0] = upB + nextB;
      older = da - lossA;
      newer = db - lossB;
      least -= 2 * ease;
    }
    for (; i < nodes; i += 1) {
      const d = down[(from + i) | 0] as number;
      const u = up[(from + i) | 0] as number;
      const loss = drag * (d - u) * Math.abs(d - u);
      const upwards = u + loss;
      if (d + u < least || older + upwards < least) return false;
      const next = drag * (older - upwards) * Math.abs(older - upwards);
      down[(to + i) | 0] = older - next;
      up[(to + i - 2) | 0] = upwards + next;
      older = newer;
      newer = d - loss;
    }
    up[(to + nodes - 2) | 0] = pump + drag * (older - pump) * Math.abs(older - pump);
    lookAtEnds(to, nodes);
    return true;
  }

  /** One time step of the nodes before `end`, up to the first at which a head may be too low; returns that one. */
  function sweepWater(from: number, to: number, end: number): number {
    const drag = rules[DRAG] as number;
    const ease = rules[EASE] as number;
    let least = (rules[LEAST] as number) - ease;
    const start = down[from] as number;
    const inlet = up[from] as number;
    down[(to + 1) | 0] = start - drag * (start - inlet) * Math.abs(start - inlet);
    let i = 1;
    for (const turns = end - 1; i < turns; i += 2) {
      const j = (from + i) | 0;
      const k = (to + i) | 0;
      const da = down[j] as number;
      const ua = up[j] as number;
      const db = down[(j + 1) | 0] as number;
      const ub = up[(j + 1) | 0] as number;
      if (da + ua < least || db + ub < least) return i;
      const lossA = drag * (da - ua) * Math.abs(da - ua);
      const lossB = drag * (db - ub) * Math.abs(db - ub);
      down[(k + 1) | 0] = da - lossA;
      up[(k - 1) | 0] = ua + lossA;
      down[(k + 2) | 0] = db - lossB;
      up[k] = ub + lossB;
      least -= 2 * ease;
    }
    return i;
  }

  /**
   * One time step, with a cavity wherever the head between the ends would fall below the vapour's; returns the first node at
   * which it may have, or `nodes`. No cavity is open before node `firstLow`.
   *
   * A cavity is a free surface at the vapour's head on both sides; it grows by the difference of the velocities.
   */
  function sweepBoiling(from: number, to: number, nodes: number, firstLow: number): number {
    const drag = rules[DRAG] as number;
    const grow = rules[GROW] as number;
    const last = nodes - 1;
    let first = nodes;
    for (let i = sweepWater(from, to, Math.min(firstLow, nodes)); i < nodes; i += 1) {
      const j = (from + i) | 0;
      const k = (to + i) | 0;
      const d = down[j] as number;
      const u = up[j] as number;
      const before = cavities[i] as number;
      const floor = twiceFloors[i] as number;
      const low = (d + u < floor || before > 0) && i < last;
      if (low && i < first) first = i;
      const volume = low ? before + grow * (floor - d - u) : 0;
      if (volume > 0) {
        const below = floor - 2 * u;
        const above = 2 * d - floor;
        down[(k + 1) | 0] = floor - u - drag * below * Math.abs(below);
        up[(k - 1) | 0] = floor - d + drag * above * Math.abs(above);
        cavities[i] = volume;
      } else {
        const loss = drag * (d - u) * Math.abs(d - u);
        down[(k + 1) | 0] = d - loss;
        up[(k - 1) | 0] = u + loss;
        cavities[i] = 0;
      }
    }
    lookAtEnds(to, nodes);
    return first;
  }

  return { down, up, cavities, twiceFloors, rules, place, lookAhead, sweepPair, sweepBoiling };
}
