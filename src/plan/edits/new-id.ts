import type { PipeId, Plan, PlanPipe } from '../model/plan.ts';
import type { NewPipe } from '../model/starting-pipe.ts';

/** An id such as `tank-2`: one above the highest number in use, so that a removed point's id is not taken up again at once. */
export function newId(stem: string, taken: readonly { readonly id: string }[]): string {
  const numbers = taken.map(({ id }) => (id.startsWith(`${stem}-`) ? Number(id.slice(stem.length + 1)) : 0));
  const highest = numbers.reduce((most, n) => (Number.isSafeInteger(n) && n > most ? n : most), 0);
  return `${stem}-${highest + 1}`;
}

/** A new id for a point or a route: they share one space. */
export function newFeatureId(plan: Plan, stem: string): string {
  return newId(stem, [...plan.points, ...plan.routes]);
}

/** A name made from an id: `tank-2` gives `Tank 2`. */
export function nameFromId(id: string): string {
  const words = id.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

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
