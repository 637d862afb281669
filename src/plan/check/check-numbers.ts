import type { HandbookRows } from '../model/handbook-rows.ts';
import type { HerdGroup, MeasuredRun, PlanPipe, PumpChoice, PumpSheet, YieldReading } from '../model/plan.ts';
import type { PlanDraft } from '../model/plan-draft.ts';
import type { Problem } from '../model/problem.ts';
import { unknownRow } from './check-routes.ts';
import { repeatedIds } from './repeated.ts';

/** Numbers that only make sense together, and rows of the handbook that must exist. */
export function checkNumbers({ settings }: PlanDraft, rows: HandbookRows): readonly Problem[] {
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
