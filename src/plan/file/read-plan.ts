import type { Outcome, Problem } from '../../units/outcome.ts';
import { checkPlan } from '../check/check-plan.ts';
import type { HandbookRows } from '../model/known-rows.ts';
import { handbookRows } from '../model/known-rows.ts';
import { describe, pathOf } from '../model/path.ts';
import type { Plan } from '../model/plan.ts';
import type { PlanDraft, PlanSettings } from '../model/plan-draft.ts';
import { deepFreeze } from '../model/plan-draft.ts';
import { type JsonObject, type JsonValue, parseJson } from './json-text.ts';
import { readFeatures } from './read-features.ts';
import { accepted, readPart } from './read-part.ts';
import { planVersion, settingsCodec } from './settings-file.ts';

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

const topKeys: ReadonlySet<string> = new Set(['type', 'features', 'rillwright']);

/** More problems than this are not listed: the first ones say enough. */
export const mostProblems = 50;

/** Reads the text of a plan file: the plan, frozen, or everything that is wrong with the file. */
export function readPlan(text: string, rows: HandbookRows = handbookRows): Outcome<Plan> {
  const json = parseJson(text);
  if (!json.ok) return json;
  const file = migrate(json.value);
  if (!file.ok) return file;
  return readFile(file.value, rows);
}

function readFile(file: JsonObject, rows: HandbookRows): Outcome<Plan> {
  const problems: Problem[] = [...unknownKeys(file)];
  const settings = accepted(readPart(settingsCodec, file.rillwright, 'rillwright'), problems);
  const features = readFeatures(file.features, { problems, mostProblems });
  const draft: PlanDraft = { ...features, settings };
  problems.push(...checkPlan(draft, rows));
  if (settings === null || problems.length > 0) return { ok: false, problems: problems.slice(0, mostProblems) };
  return { ok: true, value: planOf(draft, settings) };
}

function planOf({ points, routes }: PlanDraft, settings: PlanSettings): Plan {
  return deepFreeze({
    ...settings,
    points: points.map(({ part }) => part),
    routes: routes.map(({ part }) => part),
  });
}

function unknownKeys(file: JsonObject): readonly Problem[] {
  return Object.keys(file)
    .filter((key) => !topKeys.has(key))
    .map((key) => ({ code: 'unknown-key', path: pathOf([key]), found: describe(file[key]), expected: 'no such key' }));
}
