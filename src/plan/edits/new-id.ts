import type { Plan } from '../model/plan.ts';

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
