import type { MeasureFirst } from '../../evaluation/result/evaluation.ts';
import type { Plan, PlanPoint, PointId } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import type { Metres } from '../../units/quantity.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';

/** What counts at a point, and how high above the ground it is. */
interface Mark {
  readonly what: string;
  readonly above: Metres;
}

/** The water or valve level at a point that water leaves, or that it comes to. */
function markOf(point: PlanPoint, side: 'leaves' | 'comes'): Mark {
  switch (point.role) {
    case 'source':
      return { what: 'water', above: point.waterLevel };
    case 'standpipe':
      return { what: 'inlet', above: point.inletHeight };
    case 'pump':
      return { what: 'valve', above: point.wasteValveHeight };
    case 'tank':
      return side === 'leaves'
        ? { what: 'outlet', above: point.outletHeight }
        : { what: 'inlet', above: point.inletHeight };
    case 'trough':
      return { what: 'valve', above: point.valveHeight };
  }
}

/** Between which two points a level runs; null for every other quantity. */
function endsOf({ quantity, about }: MeasureFirst, plan: Plan): { from: PlanPoint; to: PlanPoint } | null {
  const at = (id: PointId | undefined) => plan.points.find((point) => point.id === id);
  const first = (role: PlanPoint['role']) => plan.points.find((point) => point.role === role);
  const to = at(about);
  const feeds = plan.routes.find((route) => route.role === 'gravity' && route.to === about)?.from;
  const from =
    quantity === 'fall' || quantity === 'standpipe-level'
      ? first('source')
      : quantity === 'lift'
        ? first('pump')
        : quantity === 'trough-level'
          ? at(feeds)
          : undefined;
  return from === undefined || to === undefined ? null : { from, to };
}

/**
 * The bridge between a level as it is taken, ground to ground, and as it works, water to valve: both ranges, and what stands
 * above the ground at either end. Null where nothing is levelled between two points.
 */
export function levelBridge(item: MeasureFirst, plan: Plan, units: UnitSystem): string | null {
  const ends = endsOf(item, plan);
  if (ends === null || item.expected === null) return null;
  const [from, to] = [markOf(ends.from, 'leaves'), markOf(ends.to, 'comes')];
  const { low, high } = item.expected;
  const by = to.above - from.above;
  const [least, most] = [low + by, high + by];
  if (least * most <= 0) return null;
  const range = most < 0 ? writeRange(-most, -least, 'height', units) : writeRange(least, most, 'height', units);
  const way = most < 0 ? 'lower' : 'higher';
  return `That is ground to ground. ${capital(from.what)} to ${to.what} it is ${range} ${way}: the ${from.what} at ${ends.from.name} is ${above(from, units)}, the ${to.what} at ${ends.to.name} ${above(to, units)}.`;
}

function above({ above }: Mark, units: UnitSystem): string {
  if (above === 0) return 'at ground level';
  const height = writeQuantity(Math.abs(above), 'height', units);
  return `${height} ${above < 0 ? 'below' : 'above'} the ground`;
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
