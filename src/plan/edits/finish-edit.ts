import type { Problem } from '../../units/outcome.ts';
import { checkPlan } from '../check/check-plan.ts';
import { areaCodec } from '../file/area-file.ts';
import { pointToFile } from '../file/point-file.ts';
import { readPoint } from '../file/read-features.ts';
import { accepted, readPart } from '../file/read-part.ts';
import { routeCodec } from '../file/route-file.ts';
import { settingsCodec } from '../file/settings-file.ts';
import { handbookRows } from '../model/known-rows.ts';
import type { Plan, PlanPoint, PlanRoute } from '../model/plan.ts';
import type { PlanDraft, PlanSettings } from '../model/plan-draft.ts';
import { deepFreeze } from '../model/plan-draft.ts';
import type { Edit, EditLabel } from './edit.ts';

/**
 * Ends every edit: parts that differ from the plan before are taken through the file's form and back, which checks them
 * and gives them the very value a saved plan would have; then the whole is checked. Parts left alone stay shared.
 */
export function finishEdit(before: Plan, after: Plan, label: EditLabel): Edit {
  const problems: Problem[] = [];
  const points = settled(before.points, after.points, (point, index) => settlePoint(point, index, problems));
  const routes = settled(before.routes, after.routes, (route, index) => {
    return settleRoute(route, after.points.length + index, problems);
  });
  const areas = settled(before.areas, after.areas, (area, index) => {
    const path = featurePath(after.points.length + after.routes.length + index);
    return accepted(readPart(areaCodec, areaCodec.toFile(area), path), problems) ?? area;
  });
  const settings = settleSettings(before, after, problems);
  if (problems.length > 0) return { ok: false, problems };
  const sameParts = points === before.points && routes === before.routes && areas === before.areas;
  if (sameParts && sameSettings(before, settings)) {
    return { ok: true, value: { plan: before, label } };
  }
  const plan = deepFreeze<Plan>({ ...settings, points, routes, areas });
  const found = checkPlan(draftOf(plan), handbookRows);
  return found.length > 0 ? { ok: false, problems: found } : { ok: true, value: { plan, label } };
}

/** The list with its new entries settled; the list before when nothing changed. */
function settled<Part>(
  before: readonly Part[],
  after: readonly Part[],
  settle: (part: Part, index: number) => Part,
): readonly Part[] {
  if (after === before) return before;
  const known = new Set(before);
  return after.map((part, index) => (known.has(part) ? part : settle(part, index)));
}

function settlePoint(point: PlanPoint, index: number, problems: Problem[]): PlanPoint {
  return accepted(readPoint(point.role, pointToFile(point), featurePath(index)), problems) ?? point;
}

function settleRoute(route: PlanRoute, index: number, problems: Problem[]): PlanRoute {
  return accepted(readPart(routeCodec, routeCodec.toFile(route), featurePath(index)), problems) ?? route;
}

function settleSettings(before: Plan, after: Plan, problems: Problem[]): PlanSettings {
  const settled = accepted(readPart(settingsCodec, settingsCodec.toFile(after), 'rillwright'), problems) ?? after;
  const kept = <Key extends keyof PlanSettings>(key: Key) => (after[key] === before[key] ? before[key] : settled[key]);
  return {
    name: kept('name'),
    units: kept('units'),
    waterTemperature: kept('waterTemperature'),
    pipes: kept('pipes'),
    pump: kept('pump'),
    yieldReadings: kept('yieldReadings'),
    dryShare: kept('dryShare'),
    ...dryDoubtOf(before, after, settled),
    leftInStream: kept('leftInStream'),
    herd: kept('herd'),
    year: kept('year'),
    measurements: kept('measurements'),
    ...recordsOf(before, after, settled),
    materials: kept('materials'),
    mapTiles: kept('mapTiles'),
    confidence: kept('confidence'),
    terrain: kept('terrain'),
  };
}

/** A plan that says nothing of the doubt of its dry season has no such key, as its file has none. */
function dryDoubtOf(before: Plan, after: Plan, settled: PlanSettings): Pick<PlanSettings, 'dryShareDoubt'> {
  const doubt = after.dryShareDoubt === before.dryShareDoubt ? before.dryShareDoubt : settled.dryShareDoubt;
  return doubt === undefined ? {} : { dryShareDoubt: doubt };
}

/** A plan without records has no such key, as its file has none. */
function recordsOf(before: Plan, after: Plan, settled: PlanSettings): Pick<PlanSettings, 'records'> {
  const records = after.records === before.records ? before.records : settled.records;
  return records === undefined || records.length === 0 ? {} : { records };
}

/** A plan as it would stand in its file: points first, then routes, then areas. */
function draftOf(plan: Plan): PlanDraft {
  const points = plan.points.map((part, index) => ({ part, path: featurePath(index) }));
  const routes = plan.routes.map((part, index) => ({ part, path: featurePath(points.length + index) }));
  const before = points.length + routes.length;
  const areas = plan.areas.map((part, index) => ({ part, path: featurePath(before + index) }));
  return { points, routes, areas, settings: plan, allFeaturesRead: true };
}

function featurePath(index: number): string {
  return `features[${index}]`;
}

function sameSettings(before: Plan, settings: PlanSettings): boolean {
  return Object.entries(settings).every(([key, value]) => Reflect.get(before, key) === value);
}
