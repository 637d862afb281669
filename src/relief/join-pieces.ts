/** Chains pieces, given as pairs of start and end edge, into lines of edges; a ring repeats its first edge at the end. */
export function joinPieces(edges: readonly number[]): number[][] {
  const next = new Map<number, number>();
  const entered = new Set<number>();
  for (let at = 0; at + 1 < edges.length; at += 2) {
    next.set(edges[at] ?? 0, edges[at + 1] ?? 0);
    entered.add(edges[at + 1] ?? 0);
  }
  const lines: number[][] = [];
  // Open lines first, from the edges that nothing leads to; what is left are rings.
  for (const start of next.keys()) if (!entered.has(start)) lines.push(follow(next, start));
  for (const start of next.keys()) lines.push(follow(next, start));
  return lines;
}

function follow(next: Map<number, number>, start: number): number[] {
  const line = [start];
  let edge = next.get(start);
  next.delete(start);
  while (edge !== undefined) {
    line.push(edge);
    const after = next.get(edge);
    next.delete(edge);
    edge = after;
  }
  return line;
}
