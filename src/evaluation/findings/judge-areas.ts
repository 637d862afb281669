import { localPlane, type PlanePlace } from '../../geodesy/local-plane.ts';
import type { PlanArea, PlanRoute } from '../../plan/model/plan.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Site } from '../site/site.ts';
import { exactly } from '../statistics/compare.ts';
import { type Judged, judge } from './finding.ts';

/** Lines against the areas that must not be crossed: how much of each lies inside one, away from its gates. */
export function judgeAreas({ plan }: Site): Judged[] {
  return plan.routes.flatMap((route) =>
    plan.areas.flatMap((area) => {
      const inside = lengthInside(route, area);
      if (inside === 0) return [];
      const facts = { area: area.name };
      return [judge('line-crosses', plan.confidence, { about: route.id, spread: exactly(inside), limit: 0, facts })];
    }),
  );
}

/** Steps at which a line is looked at, and how near to a gate it may cross. Common practice, no source. */
const STEP: Metres = 0.5;
const MOST_STEPS = 20_000;
const GATE_REACH: Metres = 6;

/** Level length of a line inside an area, m, without the stretches that pass a gate. */
function lengthInside({ vertices }: PlanRoute, { outline, gates }: PlanArea): Metres {
  const [origin] = outline;
  if (!origin) return 0;
  const onPlane = localPlane(origin);
  const ring = outline.map(onPlane);
  const open = gates.map(onPlane);
  let sum = 0;
  let stretch = 0;
  let passesGate = false;
  const end = (): void => {
    if (!passesGate) sum += stretch;
    stretch = 0;
    passesGate = false;
  };
  vertices.slice(1).forEach((to, k) => {
    const a = onPlane(vertices[k] ?? to);
    const b = onPlane(to);
    const length = Math.hypot(b.east - a.east, b.north - a.north);
    const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil(length / STEP)));
    for (let i = 0; i < steps; i++) {
      const t = (i + 0.5) / steps;
      const here = { east: a.east + (b.east - a.east) * t, north: a.north + (b.north - a.north) * t };
      if (!isInside(ring, here)) {
        end();
        continue;
      }
      stretch += length / steps;
      passesGate ||= open.some((gate) => Math.hypot(gate.east - here.east, gate.north - here.north) <= GATE_REACH);
    }
  });
  end();
  return sum;
}

/** Even-odd rule. */
function isInside(ring: readonly PlanePlace[], { east, north }: PlanePlace): boolean {
  let inside = false;
  ring.forEach((a, k) => {
    const b = ring[(k + 1) % ring.length] ?? a;
    if (a.north > north === b.north > north) return;
    if (east < a.east + ((north - a.north) / (b.north - a.north)) * (b.east - a.east)) inside = !inside;
  });
  return inside;
}
