import type { Plan, PointId } from '../../plan/model/plan.ts';
import type { GroundPoint } from '../../terrain/grid/ground.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { nameOf } from './measure-words.ts';

/**
 * What was taken off heights that the file's cells flatten, a sentence a point with its direction and how far it may be off;
 * amounts that round to nothing are left out.
 */
export function flattenedSentences(
  plan: Plan,
  points: ReadonlyMap<PointId, GroundPoint>,
  units: UnitSystem,
): readonly string[] {
  const height = (value: number): string => writeQuantity(Math.abs(value), 'height', units);
  return plan.points.flatMap(({ id }) => {
    const { smoothing = 0, averagingSpread } = points.get(id) ?? {};
    if (averagingSpread === undefined || height(smoothing) === height(0)) return [];
    const side = smoothing > 0 ? 'high' : 'low';
    return [
      `${nameOf(plan, id)}: the file’s cells make the ground read some ${height(smoothing)} too ${side} there (standard deviation ${height(averagingSpread)}); that is reckoned with. Level it on site where a lift hangs on it.`,
    ];
  });
}
