import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import type { Problem } from '../../src/units/outcome.ts';
import { samplePlan } from './sample-plan.ts';

/** The sample plan as loose JSON, with one value replaced: keys and numbers lead to it; `undefined` takes it out. */
export function sampleWith(path: readonly (string | number)[], value: unknown): string {
  const file: unknown = JSON.parse(writePlan(samplePlan));
  let here = file;
  for (const key of path.slice(0, -1)) here = memberOf(here, key);
  const last = path.at(-1);
  if (last === undefined || typeof here !== 'object' || here === null) throw new Error(`found no ${path.join('.')}`);
  Reflect.set(here, last, value);
  return JSON.stringify(file);
}

export function problemsOf(text: string): readonly Problem[] {
  const read = readPlan(text);
  return read.ok ? [] : read.problems;
}

function memberOf(value: unknown, key: string | number): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) {
    throw new Error(`found nothing at ${key}, expected a part of the sample plan`);
  }
  return Reflect.get(value, key);
}
