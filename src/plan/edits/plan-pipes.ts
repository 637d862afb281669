import type { PipeId, Plan, PlanPipe } from '../model/plan.ts';
import type { NewPipe } from '../model/starting-pipe.ts';
import { newId } from './new-id.ts';

/** The plan's pipes with this one among them: the entry that already says the same, or a new one. */
export function withPipe(plan: Plan, pipe: NewPipe): { readonly pipes: readonly PlanPipe[]; readonly id: PipeId } {
  const same = plan.pipes.find((known) => sayTheSame(known, pipe));
  if (same !== undefined) return { pipes: plan.pipes, id: same.id };
  const id = newId('pipe', plan.pipes);
  return { pipes: [...plan.pipes, { ...pipe, id }], id };
}

/** Pipes that no route is laid in leave the plan. */
export function withoutUnusedPipes(plan: Plan): Plan {
  const used = new Set(plan.routes.map(({ pipe }) => pipe));
  return plan.pipes.every(({ id }) => used.has(id))
    ? plan
    : { ...plan, pipes: plan.pipes.filter(({ id }) => used.has(id)) };
}

function sayTheSame(known: PlanPipe, pipe: NewPipe): boolean {
  return Object.entries(pipe).every(([key, value]) => Reflect.get(known, key) === value);
}
