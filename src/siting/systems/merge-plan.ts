import type { Plan } from '../../plan/model/plan.ts';

/**
 * A proposed system put into the plan that it was proposed for: other tanks and troughs stay, with the gravity lines between what
 * stays; standpipe, pump and the lines that feed it are those of the proposal. Levels taken at places that go are dropped.
 */
export function mergePlan(present: Plan, proposal: Plan): Plan {
  const taken = new Set(proposal.points.map((p) => p.id));
  const kept = present.points.filter((p) => (p.role === 'tank' || p.role === 'trough') && !taken.has(p.id));
  const points = [...proposal.points, ...kept];
  const there = new Set(points.map((p) => p.id));
  const gravity = present.routes.filter((r) => r.role === 'gravity' && there.has(r.from) && there.has(r.to));
  const routes = [...proposal.routes, ...gravity];
  const used = new Set(routes.map((r) => r.pipe));
  const pipes = [...new Map([...present.pipes, ...proposal.pipes].map((p) => [p.id, p])).values()];
  const moved = new Set(points.filter((p) => p.role === 'pump' || p.role === 'standpipe').map((p) => p.id));
  const stays = (id: string): boolean => there.has(id) && !moved.has(id);
  return {
    ...present,
    points,
    routes,
    pipes: pipes.filter((p) => used.has(p.id)),
    pump: proposal.pump,
    measurements: present.measurements.filter((m) =>
      m.kind === 'height' ? stays(m.point) : stays(m.from) && stays(m.to),
    ),
  };
}
