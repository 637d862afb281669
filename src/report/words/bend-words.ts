import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';

/** Where a drawn vertex stands along its line, and the ground under it; null while the line's ground is not known. */
export function bendWords(ground: GroundLine | undefined, vertex: number, units: UnitSystem): string | null {
  const sample = ground?.vertices[vertex];
  if (ground === undefined || sample === undefined) return null;
  const along = `${writeQuantity(ground.at[sample] ?? 0, 'length', units)} along`;
  const height = ground.known[sample] === 1 ? writeQuantity(ground.ground[sample] ?? 0, 'height', units) : null;
  return height === null ? `${along}, no height here` : `${along}, ground ${height}`;
}
