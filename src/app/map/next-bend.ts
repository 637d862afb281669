/**
 * The bend that follows another along a route, or comes before it, round and round; null for a route without bends.
 * The vertices at both ends are points of the plan and no bends.
 */
export function nextBend(vertices: number, from: number | null, step: 1 | -1): number | null {
  const bends = vertices - 2;
  if (bends < 1) return null;
  if (from === null) return step === 1 ? 1 : bends;
  return 1 + ((from - 1 + step + bends) % bends);
}
