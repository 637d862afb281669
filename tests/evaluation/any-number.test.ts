import { expect, test } from 'vitest';
import { evaluate, evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { handbookRows } from '../../src/plan/model/known-rows.ts';
import type { PhysicalRam, PumpChoice } from '../../src/plan/model/plan.ts';
import { assessmentJson } from '../../src/report/tables/assessment-json.ts';
import { assessmentText } from '../../src/report/tables/assessment-text.ts';
import { lidar, madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const ram: PhysicalRam = {
  kind: 'ram',
  label: 'invented',
  count: 2,
  driveBore: 0.035,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  valveWeightHead: 3,
  valveStroke: 0.005,
  checkLag: 0.003,
  airChamber: 0.002,
  measured: {
    driveFlow: litresPerMinute(20),
    delivery: litresPerMinute(2),
    fall: 4,
    deliveryHead: 25,
    plusMinus: 0.1,
  },
};

const pumps: readonly PumpChoice[] = [ram, { ...ram, valveWeightHead: null, measured: null, count: 1 }, sheet];

type Path = readonly (string | number)[];

/** Where in a plan file a number stands. */
function numbersIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value === 'number') return [path];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, part]) => numbersIn(part, [...path, key]));
}

function withNumber(value: unknown, [key, ...rest]: Path, number: number): unknown {
  if (key === undefined) return number;
  if (Array.isArray(value))
    return value.map((part, at) => (at === Number(key) ? withNumber(part, rest, number) : part));
  const held = value as Readonly<Record<string, unknown>>;
  return { ...held, [key]: withNumber(held[key], rest, number) };
}

/** Paths of numbers that no reader could use. */
function faults(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Math.abs(value) < 1e100 ? [] : [`${path} is ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, part]) => faults(part, `${path}.${key}`));
}

const NUMBERS = [0, 1e-12, 1e-3, 1, 1e4, -50];

function faultsOf(text: string): readonly string[] {
  const read = readPlan(text, handbookRows);
  if (!read.ok) return [];
  try {
    const ground = madeGround(read.value, { heights: workingHeights, lengths: workingLengths, accuracy: lidar });
    const results = [evaluate(read.value, ground), evaluateDrawn(read.value, ground, { count: 8, seed: 1 })];
    return results.flatMap((result) => {
      const words = assessmentText(read.value, result, 'us').match(/NaN|Infinity|undefined/g) ?? [];
      return [...faults(assessmentJson(read.value, result)), ...words];
    });
  } catch (error) {
    return [`threw ${error}`];
  }
}

test('every number that a plan file lets through gives finite numbers and readable words', () => {
  const found: string[] = [];
  let tried = 0;
  for (const pump of pumps) {
    const file: unknown = JSON.parse(writePlan({ ...workingPlan, pump }));
    for (const path of numbersIn(file)) {
      for (const number of NUMBERS) {
        tried++;
        const bad = faultsOf(JSON.stringify(withNumber(file, path, number)));
        if (bad.length > 0) found.push(`${pump.kind}: ${path.join('.')} = ${number}: ${bad.slice(0, 2).join('; ')}`);
      }
    }
  }
  expect(found).toEqual([]);
  expect(tried).toBeGreaterThan(1000);
});

test('a waste valve without loss, and an air chamber without air, are refused with the least that is taken', () => {
  for (const [key, bound] of [
    ['waste_valve_loss', 'at least 0.001'],
    ['air_chamber_L', 'at least 0.01'],
  ] as const) {
    const file: unknown = JSON.parse(writePlan({ ...workingPlan, pump: ram }));
    const read = readPlan(JSON.stringify(withNumber(file, ['rillwright', 'pump', key], 0)), handbookRows);
    expect(read.ok ? [] : read.problems).toEqual([
      { code: 'out-of-range', path: `rillwright.pump.${key}`, found: '0', expected: bound },
    ]);
  }
});
