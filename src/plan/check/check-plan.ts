import type { Problem } from '../../units/outcome.ts';
import type { HandbookRows } from '../model/known-rows.ts';
import { describe } from '../model/path.ts';
import type {
  HerdGroup,
  MeasuredRun,
  PlanPipe,
  PlanPoint,
  PointRole,
  PumpChoice,
  PumpSheet,
  YieldReading,
} from '../model/plan.ts';
import type { Placed, PlanDraft } from '../model/plan-draft.ts';
import { checkMeasurements } from './check-measurements.ts';
import { checkRoutes, unknownRow } from './check-routes.ts';

const single: readonly PointRole[] = ['source', 'standpipe', 'pump'];

/** Points, routes and areas share one space of ids; a plan has one source, one standpipe and one pump at most. */
function checkPoints({ points, routes, areas }: PlanDraft): readonly Problem[] {
  const ids = [...points, ...routes, ...areas].map(({ part, path }) => ({ id: part.id, path: `${path}.id` }));
  return [
    ...repeatedIds(ids),
    ...single.flatMap((role) => checkSingle(points, role)),
    ...points.flatMap(checkStandpipe),
  ];
}

function checkSingle(points: readonly Placed<PlanPoint>[], role: PointRole): readonly Problem[] {
  return points
    .filter(({ part }) => part.role === role)
    .slice(1)
    .map(({ path }) => ({
      code: 'second-of-role',
      path: `${path}.properties.role`,
      found: `another ${role}`,
      expected: `one ${role} at most`,
    }));
}

function checkStandpipe({ part, path }: Placed<PlanPoint>): readonly Problem[] {
  if (part.role !== 'standpipe' || part.topHeight >= part.inletHeight) return [];
  return [
    {
      code: 'out-of-order',
      path: `${path}.properties.top_height_m`,
      found: String(part.topHeight),
      expected: `at least the inlet's height, ${part.inletHeight}`,
    },
  ];
}

/** Everything that is wrong between the parts of a plan, and with numbers that only make sense together. */
export function checkPlan(draft: PlanDraft, rows: HandbookRows): readonly Problem[] {
  return [
    ...checkPoints(draft),
    ...checkRoutes(draft, rows),
    ...checkNumbers(draft, rows),
    ...checkMeasurements(draft),
  ];
}

/** Numbers that only make sense together, and rows of the handbook that must exist. */
function checkNumbers({ settings }: PlanDraft, rows: HandbookRows): readonly Problem[] {
  if (settings === null) return [];
  const pipePath = (index: number) => `rillwright.pipes[${index}]`;
  return [
    ...repeatedIds(settings.pipes.map(({ id }, index) => ({ id, path: `${pipePath(index)}.id` }))),
    ...settings.pipes.flatMap((pipe, index) => checkPipe(pipe, pipePath(index), rows)),
    ...settings.herd.flatMap((group, index) => checkHerd(group, `rillwright.herd[${index}]`, rows)),
    ...settings.yieldReadings.flatMap((reading, index) => checkReading(reading, `rillwright.yield_readings[${index}]`)),
    ...unless(
      settings.year.length === 0 || settings.year.length === 12,
      'rillwright.year',
      `${settings.year.length} months`,
      'none or all twelve',
    ),
    ...(settings.pump === null ? [] : checkPump(settings.pump, 'rillwright.pump')),
  ];
}

function checkPipe(pipe: PlanPipe, path: string, rows: HandbookRows): readonly Problem[] {
  if (pipe.kind === 'row') return rows.hasPipe(pipe.row) ? [] : [unknownRow(`${path}.row`, pipe.row, 'a pipe')];
  const largest = pipe.bore / 2;
  return unless(pipe.roughness < largest, `${path}.roughness_mm`, 'a roughness of half the bore or more', 'less');
}

function checkHerd(group: HerdGroup, path: string, rows: HandbookRows): readonly Problem[] {
  if (group.kind === 'own' || rows.hasHerd(group.row)) return [];
  return [unknownRow(`${path}.row`, group.row, 'a herd')];
}

function checkReading(reading: YieldReading, path: string): readonly Problem[] {
  if (reading.kind === 'stated') return [];
  const path_ = `${path}.volume_plus_minus_L`;
  return unless(reading.volumePlusMinus < reading.volume, path_, 'as much as the volume or more', 'less');
}

function checkPump(pump: PumpChoice, path: string): readonly Problem[] {
  return [
    ...(pump.kind === 'sheet' ? checkSheet(pump, path) : []),
    ...(pump.measured === null ? [] : checkRun(pump.measured, `${path}.measured`)),
    ...(pump.moreRuns ?? []).flatMap((run, i) => checkRun(run, `${path}.more_runs[${i}]`)),
  ];
}

function checkSheet(sheet: PumpSheet, path: string): readonly Problem[] {
  const { intakeLeast, intakeMost, intakeSet, efficiency } = sheet;
  const intake = `the pump's intake, from least to most`;
  return [
    ...unless(intakeLeast <= intakeMost, `${path}.intake_least_L_per_min`, 'more than the most', 'at most as much'),
    ...unless(
      intakeSet === null || (intakeSet >= intakeLeast && intakeSet <= intakeMost),
      `${path}.intake_set_L_per_min`,
      `a setting outside ${intake}`,
      `within ${intake}`,
    ),
    ...unless(
      efficiency === null || (efficiency.low <= efficiency.likely && efficiency.likely <= efficiency.high),
      `${path}.efficiency`,
      'low, likely and high out of order',
      'low, likely and high in rising order',
    ),
    ...unless(
      sheet.efficiencyCurve.every((p, i, all) => i === 0 || p.headOverFall > (all[i - 1]?.headOverFall ?? 0)),
      `${path}.efficiency_curve`,
      'points out of order',
      'rising heads over the fall',
    ),
  ];
}

/** A pump can neither deliver more water than it takes nor more energy: q h ≤ Q H (D'Aubuisson). */
function checkRun(run: MeasuredRun, path: string): readonly Problem[] {
  const gained = run.delivery > run.driveFlow || run.delivery * run.deliveryHead > run.driveFlow * run.fall;
  return unless(!gained, `${path}.delivery_L_per_min`, 'more water or energy than goes in', 'less than goes in');
}

function unless(right: boolean, path: string, found: string, expected: string): readonly Problem[] {
  return right ? [] : [{ code: 'out-of-order', path, found, expected }];
}

/** Ids that are used more than once: a problem for each use after the first. */
function repeatedIds(entries: readonly { readonly id: string; readonly path: string }[]): readonly Problem[] {
  const seen = new Set<string>();
  const problems: Problem[] = [];
  for (const { id, path } of entries) {
    if (seen.has(id)) problems.push({ code: 'repeated-id', path, found: describe(id), expected: 'an id of its own' });
    seen.add(id);
  }
  return problems;
}
