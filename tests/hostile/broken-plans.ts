import { readFileSync } from 'node:fs';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { samplePlan } from '../plan/sample-plan.ts';
import { seeded } from '../terrain/hostile-corpus.ts';

export interface BrokenPlan {
  readonly what: string;
  readonly text: string;
}

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type Path = readonly (string | number)[];

/** From the made-up plan's place in the sea to the demo valley's, degrees. */
const TO_DEMO = { lon: -9.9963, lat: -2.0008 } as const;

/** Two plans that use every part a plan can have, both on the ground of the demo valley. */
function bases(): readonly Json[] {
  const sample: Json = JSON.parse(writePlan(samplePlan));
  const demo: Json = JSON.parse(readFileSync('data/demo/plan.geojson', 'utf8'));
  return [demo, mapped(sample, (key, value) => (key === 'coordinates' ? shifted(value) : value))];
}

function shifted(value: Json): Json {
  if (!Array.isArray(value)) return value;
  const [lon, lat] = value;
  if (typeof lon === 'number' && typeof lat === 'number') return [lon + TO_DEMO.lon, lat + TO_DEMO.lat];
  return value.map(shifted);
}

function mapped(value: Json, change: (key: string, value: Json) => Json): Json {
  if (Array.isArray(value)) return value.map((part) => mapped(part, change));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, change(key, mapped(part, change))]));
}

/** Where everything stands in a plan but the whole itself. */
function placesIn(value: Json, path: Path = []): readonly Path[] {
  const inside =
    typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([key, part]) =>
          placesIn(part as Json, [...path, Array.isArray(value) ? Number(key) : key]),
        )
      : [];
  return path.length === 0 ? inside : [path, ...inside];
}

function at(value: Json, path: Path): Json | undefined {
  return path.reduce<unknown>((part, key) => (part as Record<string | number, unknown> | undefined)?.[key], value) as
    | Json
    | undefined;
}

/** The value with one part changed, or taken out where `change` gives undefined. */
function changed(value: Json, [key, ...rest]: Path, change: (part: Json) => Json | undefined): Json {
  if (key === undefined) return change(value) ?? null;
  const own = (part: Json) => (rest.length === 0 ? change(part) : changed(part, rest, change));
  if (Array.isArray(value)) {
    return value.flatMap((part, k) => {
      const next = k === Number(key) ? own(part) : part;
      return next === undefined ? [] : [next];
    });
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, part]) => {
      const next = name === key ? own(part) : part;
      return next === undefined ? [] : [[name, next]];
    }),
  );
}

/** Numbers that somebody may have typed, and those that nobody would. */
const NUMBERS = [0, -0, 1, -1, 1e-12, 1e-6, 1e-3, 0.5, 90, 1e3, 1e4, 1e6, 1e9, -1e9, 1e308, 5e-324];
const OTHERS: readonly Json[] = [
  null,
  true,
  '',
  '12',
  'NaN',
  '\u202egnp.exe',
  '<img src=x onerror=alert(1)>',
  [],
  {},
  [[[[]]]],
  'n'.repeat(20_000),
];
/** What no JSON text may hold. */
const BARE = ['NaN', 'Infinity', '-', '1e400', '0x10', '01', "'a'", '"\\ud800"', '{,}', '/* */', '\u0000'];

/** Plans with one to three faults each; the same for the same seed. */
export function brokenPlans(count: number, seed: number): readonly BrokenPlan[] {
  const random = seeded(seed);
  const upTo = (most: number) => Math.floor(random() * most);
  const one = <T>(list: readonly T[]): T => {
    const found = list[upTo(list.length)];
    if (found === undefined) throw new Error('found an empty list, expected something to choose from');
    return found;
  };
  const plans = bases();
  const faults: readonly (readonly [string, (plan: Json) => Json])[] = [
    ['another number', (plan) => withAnother(plan, one, 'number', () => one(NUMBERS))],
    ['a number a little off', (plan) => withAnother(plan, one, 'number', (n) => Number(n) * (0.5 + random()))],
    ['another text', (plan) => withAnother(plan, one, 'string', () => one(placeNames(plan)))],
    ['something else', (plan) => changed(plan, one(placesIn(plan)), () => one(OTHERS))],
    ['a part left out', (plan) => changed(plan, one(placesIn(plan)), () => undefined)],
    ['a part twice', (plan) => twice(plan, one)],
    ['a part in another place', (plan) => changed(plan, one(placesIn(plan)), () => at(plan, one(placesIn(plan))))],
  ];
  return Array.from({ length: count }, (_, k): BrokenPlan => {
    if (k % 10 < 2) {
      const text = JSON.stringify(one(plans));
      const from = upTo(text.length);
      if (k % 10 === 0) return { what: `${k}: cut short`, text: text.slice(0, from) };
      return { what: `${k}: something bare`, text: text.slice(0, from) + one(BARE) + text.slice(from) };
    }
    let plan = one(plans);
    const told: string[] = [];
    for (let n = 0; n <= upTo(3); n += 1) {
      const [what, make] = one(faults);
      plan = make(plan);
      told.push(what);
    }
    return { what: `${k}: ${told.join(', ')}`, text: JSON.stringify(plan) };
  });
}

function withAnother(
  plan: Json,
  one: <T>(list: readonly T[]) => T,
  kind: 'number' | 'string',
  next: (before: Json) => Json,
): Json {
  const places = placesIn(plan).filter((path) => typeof at(plan, path) === kind);
  return places.length === 0 ? plan : changed(plan, one(places), next);
}

/** Texts of a plan, so that one stands where another was: ids, roles, rows, names. */
function placeNames(plan: Json): readonly string[] {
  const texts = placesIn(plan).flatMap((path) => {
    const value = at(plan, path);
    return typeof value === 'string' ? [value] : [];
  });
  return texts.length === 0 ? ['none'] : texts;
}

function twice(plan: Json, one: <T>(list: readonly T[]) => T): Json {
  const lists = placesIn(plan).filter((path) => {
    const value = at(plan, path);
    return Array.isArray(value) && value.length > 0;
  });
  if (lists.length === 0) return plan;
  return changed(plan, one(lists), (list) => (Array.isArray(list) ? [...list, one(list)] : list));
}
