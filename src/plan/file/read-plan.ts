import type { Outcome, Problem } from '../../units/outcome.ts';
import { checkPlan } from '../check/check-plan.ts';
import type { HandbookRows } from '../model/known-rows.ts';
import { handbookRows } from '../model/known-rows.ts';
import { describe, pathOf } from '../model/path.ts';
import type { Plan } from '../model/plan.ts';
import type { PlanDraft, PlanSettings } from '../model/plan-draft.ts';
import { deepFreeze } from '../model/plan-draft.ts';
import { type JsonObject, parseJson } from './json-text.ts';
import { migrate } from './migrate.ts';
import { readFeatures } from './read-features.ts';
import { accepted, readPart } from './read-part.ts';
import { settingsCodec } from './settings-file.ts';

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

function planOf({ points, routes, areas }: PlanDraft, settings: PlanSettings): Plan {
  return deepFreeze({
    ...settings,
    points: points.map(({ part }) => part),
    routes: routes.map(({ part }) => part),
    areas: areas.map(({ part }) => part),
  });
}

function unknownKeys(file: JsonObject): readonly Problem[] {
  return Object.keys(file)
    .filter((key) => !topKeys.has(key))
    .map((key) => ({ code: 'unknown-key', path: pathOf([key]), found: describe(file[key]), expected: 'no such key' }));
}
