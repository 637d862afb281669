import type { Outcome, Problem } from '../../units/outcome.ts';
import { describe } from '../model/path.ts';
import type { JsonObject, JsonValue } from './json-text.ts';
import { planVersion } from './settings-file.ts';

/**
 * One step from a version of the plan file to the next: a pure function on the file as JSON.
 *
 * It may assume that the file keeps the older version's rules only as far as it checks them; the schema judges the result.
 */
export type Migration = (file: JsonObject) => JsonObject;

/** For each older version, the step to the version after it. Version 1 is the first, so there is none yet. */
const migrations: ReadonlyMap<number, Migration> = new Map();

/** Brings a plan file of any known version to the present one; a newer version, or no version, is a problem. */
export function migrate(
  file: JsonValue,
  { present, steps }: { readonly present: number; readonly steps: ReadonlyMap<number, Migration> } = {
    present: planVersion,
    steps: migrations,
  },
): Outcome<JsonObject> {
  if (!isObject(file)) return failed('not-a-plan', '', file, 'a GeoJSON FeatureCollection');
  if (file.type !== 'FeatureCollection') return failed('not-a-plan', 'type', file.type, '"FeatureCollection"');
  const { rillwright } = file;
  if (!isObject(rillwright)) return failed('not-a-plan', 'rillwright', rillwright, 'the settings of a plan');
  const { version } = rillwright;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return failed('unknown-version', 'rillwright.version', version, `a whole number from 1 to ${present}`);
  }
  if (version > present) {
    return failed('newer-version', 'rillwright.version', version, `at most ${present}: a newer program made this plan`);
  }
  return { ok: true, value: stepUp(file, version, { present, steps }) };
}

function stepUp(
  file: JsonObject,
  version: number,
  { present, steps }: { readonly present: number; readonly steps: ReadonlyMap<number, Migration> },
): JsonObject {
  let stepped = file;
  for (let at = version; at < present; at += 1) {
    const step = steps.get(at);
    if (step === undefined) throw new Error(`migration from version ${at}: found none, expected one`);
    stepped = withVersion(step(stepped), at + 1);
  }
  return stepped;
}

function withVersion(file: JsonObject, version: number): JsonObject {
  return isObject(file.rillwright) ? { ...file, rillwright: { ...file.rillwright, version } } : file;
}

function isObject(value: JsonValue | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function failed(code: string, path: string, value: unknown, expected: string): Outcome<JsonObject> {
  const problem: Problem = { code, path, found: describe(value), expected };
  return { ok: false, problems: [problem] };
}
