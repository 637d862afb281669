import type { Problem } from '../../units/outcome.ts';
import { describe } from '../model/path.ts';
import type { Measurement, PointId } from '../model/plan.ts';
import type { PlanDraft } from '../model/plan-draft.ts';

/** The point whose height a measurement gives. */
export function measuredPoint(taken: Measurement): PointId {
  return taken.kind === 'height' ? taken.point : taken.to;
}

/** Each measurement is about points of the plan and ties two different things together; several may be about the same. */
export function checkMeasurements({ points, settings, allFeaturesRead }: PlanDraft): readonly Problem[] {
  if (settings === null) return [];
  const ids = new Set(points.map(({ part }) => part.id));
  const { measurements } = settings;
  return [
    ...(allFeaturesRead ? measurements.flatMap((taken, index) => unknownPoints(taken, index, ids)) : []),
    ...toItself(measurements),
  ];
}

function pathTo(index: number, key: string): string {
  return `rillwright.measurements[${index}].${key}`;
}

function unknownPoints(taken: Measurement, index: number, ids: ReadonlySet<string>): readonly Problem[] {
  const named: readonly (readonly [key: string, id: PointId])[] =
    taken.kind === 'height'
      ? [['point', taken.point]]
      : [
          ['from', taken.from],
          ['to', taken.to],
        ];
  return named
    .filter(([, id]) => !ids.has(id))
    .map(([key, id]) => ({
      code: 'unknown-reference',
      path: pathTo(index, key),
      found: describe(id),
      expected: 'a point of this plan',
    }));
}

/** A level from a point to itself says nothing. */
function toItself(measurements: readonly Measurement[]): readonly Problem[] {
  return measurements.flatMap((taken, index) =>
    taken.kind === 'difference' && taken.from === taken.to
      ? [{ code: 'level-to-itself', path: pathTo(index, 'to'), found: describe(taken.to), expected: 'another point' }]
      : [],
  );
}
