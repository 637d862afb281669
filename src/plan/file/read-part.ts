import type * as z from 'zod/mini';
import type { Outcome, Problem } from '../../units/outcome.ts';
import { describe, pathOf } from '../model/path.ts';
import type { PartCodec } from './fields.ts';

type Issue = z.core.$ZodIssue;

/** Reads a value by its schema; what does not fit becomes problems with our own codes, under the path `base`. */
function readBySchema<File>(schema: z.ZodMiniType<File>, value: unknown, base: string): Outcome<File> {
  const parsed = schema.safeParse(value);
  if (parsed.success) return { ok: true, value: parsed.data };
  return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, value, base)) };
}

function problemsOf(issue: Issue, value: unknown, base: string): readonly Problem[] {
  const found = valueAt(value, issue.path);
  const path = pathOf(issue.path, base);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      code: 'unknown-key',
      path: pathOf([key], path),
      found: describe(valueAt(found, [key])),
      expected: 'no such key',
    }));
  }
  const [code, expected] = judged(issue, found);
  return [{ code, path, found: describe(found), expected }];
}

const typeNames: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'text',
  object: 'an object',
  array: 'a list',
  tuple: 'longitude and latitude',
};

function judged(issue: Issue, found: unknown): readonly [code: string, expected: string] {
  switch (issue.code) {
    case 'invalid_type': {
      const expected = typeNames[issue.expected] ?? issue.expected;
      return [found === undefined ? 'missing-key' : 'wrong-type', expected];
    }
    case 'invalid_value':
      return unknownValue(issue.values, found);
    case 'invalid_union':
      return unknownValue('options' in issue && Array.isArray(issue.options) ? issue.options : [], found);
    case 'too_big':
      return limit(issue.origin, `at most ${issue.maximum}`, found, issue.path);
    case 'too_small':
      return limit(issue.origin, `${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`, found, issue.path);
    case 'invalid_format':
      return ['malformed-text', formatOf('pattern' in issue ? String(issue.pattern) : '')];
    default:
      // The schemas of this folder use no other checks.
      throw new Error(`found schema issue ${issue.code}, expected one that has a code of ours`);
  }
}

function unknownValue(values: readonly unknown[], found: unknown): readonly [string, string] {
  return [found === undefined ? 'missing-key' : 'unknown-value', values.map((value) => describe(value)).join(' or ')];
}

function limit(origin: string, bound: string, found: unknown, path: readonly PropertyKey[]): readonly [string, string] {
  if (origin === 'string') return ['too-long', `${bound} characters`];
  if (origin !== 'array') return ['out-of-range', bound];
  if (isPositionWithHeight(found, path)) {
    return ['height-in-position', 'longitude and latitude only: a surveyed height belongs in the measurements'];
  }
  return ['wrong-count', `${bound} entries`];
}

function isPositionWithHeight(found: unknown, path: readonly PropertyKey[]): boolean {
  return (
    path.includes('coordinates') &&
    Array.isArray(found) &&
    found.length > 2 &&
    found.every((x) => typeof x === 'number')
  );
}

function formatOf(pattern: string): string {
  if (pattern.includes('[a-z0-9.-]')) return 'the name of a row: small letters, digits, points and hyphens';
  if (pattern.includes('[a-z0-9-]')) return 'a small letter, then small letters, digits and hyphens, 64 at most';
  return 'text without control characters';
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let here = value;
  for (const key of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = Reflect.get(here, key);
  }
  return here;
}

/** Reads one part from its file side. */
export function readPart<Part, File>(codec: PartCodec<Part, File>, value: unknown, path: string): Outcome<Part> {
  const file = readBySchema(codec.schema, value, path);
  return file.ok ? { ok: true, value: codec.fromFile(file.value) } : file;
}

/** The value, or null with its problems added to the list. */
export function accepted<T>(outcome: Outcome<T>, problems: Problem[]): T | null {
  if (outcome.ok) return outcome.value;
  problems.push(...outcome.problems);
  return null;
}
