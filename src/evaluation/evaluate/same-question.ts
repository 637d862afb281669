import type { Plan } from '../../plan/model/plan.ts';

/** What of a plan no number and no verdict rests on: names, notes, the units it is shown in, prices, addresses, records. */
const UNASKED: ReadonlySet<string> = new Set<keyof Plan>(['name', 'units', 'materials', 'mapTiles', 'records']);
const UNASKED_OF_PART: ReadonlySet<string> = new Set(['name', 'note']);

/** Whether two plans ask the same of the evaluation, so that the answer to one is the answer to the other. */
export function sameQuestion(a: Plan, b: Plan): boolean {
  if (a === b) return true;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  for (const key of keys) {
    if (UNASKED.has(key) || Reflect.get(a, key) === Reflect.get(b, key)) continue;
    if (key !== 'points' && key !== 'routes') return false;
    if (!sameParts(a[key], b[key])) return false;
  }
  return true;
}

/** An edit takes a part through the form of the file, which makes another object of the same values. */
function sameParts(a: readonly object[], b: readonly object[]): boolean {
  return a.length === b.length && a.every((part, at) => part === b[at] || asked(part) === asked(b[at] ?? {}));
}

function asked(part: object): string {
  return JSON.stringify(Object.entries(part).filter(([key]) => !UNASKED_OF_PART.has(key)));
}
