import type { Problem } from '../../units/outcome.ts';
import { describe } from '../model/path.ts';
import type { Measurement, PointId } from '../model/plan.ts';
import type { PlanDraft } from '../model/plan-draft.ts';

/** The point whose height a measurement gives. */
export function measuredPoint(taken: Measurement): PointId {
  return taken.kind === 'height' ? taken.point : taken.to;
}

/** Each measurement is about points of the plan, each point is measured once at most, and no chain of them closes. */
export function checkMeasurements({ points, settings, allFeaturesRead }: PlanDraft): readonly Problem[] {
  if (settings === null) return [];
  const ids = new Set(points.map(({ part }) => part.id));
  const { measurements } = settings;
  return [
    ...(allFeaturesRead ? measurements.flatMap((taken, index) => unknownPoints(taken, index, ids)) : []),
    ...measuredTwice(measurements),
    ...closedChains(measurements),
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

function measuredTwice(measurements: readonly Measurement[]): readonly Problem[] {
  const seen = new Set<PointId>();
  return measurements.flatMap((taken, index) => {
    const point = measuredPoint(taken);
    const again = seen.has(point);
    seen.add(point);
    const path = pathTo(index, taken.kind === 'height' ? 'point' : 'to');
    return again ? [{ code: 'measured-twice', path, found: describe(point), expected: 'one measurement a point' }] : [];
  });
}

/** Follows each difference back to where it was levelled from; a chain that comes back to itself has no height. */
function closedChains(measurements: readonly Measurement[]): readonly Problem[] {
  const from = new Map<PointId, PointId>();
  for (const taken of measurements) if (taken.kind === 'difference') from.set(taken.to, taken.from);
  return measurements.flatMap((taken, index) => {
    if (taken.kind === 'height' || !returns(taken.to, from)) return [];
    const found = `a chain of differences that comes back to ${describe(taken.to)}`;
    return [{ code: 'closed-chain', path: pathTo(index, 'from'), found, expected: 'a chain that starts elsewhere' }];
  });
}

function returns(start: PointId, from: ReadonlyMap<PointId, PointId>): boolean {
  let at = from.get(start);
  for (let steps = 0; at !== undefined && steps < from.size; steps += 1) {
    if (at === start) return true;
    at = from.get(at);
  }
  return false;
}
