import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Edit } from '../../../src/plan/edits/edit.ts';
import { addPoint, changePoint, movePoint, removePoint, renamePoint } from '../../../src/plan/edits/edit-points.ts';
import { addRoute, removeRoute } from '../../../src/plan/edits/edit-routes.ts';
import { changeSettings } from '../../../src/plan/edits/edit-settings.ts';
import { addMeasurement, changeMeasurement, setRecords, setYieldReadings } from '../../../src/plan/edits/edit-water.ts';
import { fieldChanges, takeChanges } from '../../../src/plan/exchange/field-changes.ts';
import type { Plan, RunRecord } from '../../../src/plan/model/plan.ts';
import { fieldChangeWords } from '../../../src/report/exchange/field-change-words.ts';
import { samplePlan } from '../sample-plan.ts';

const made = (edit: Edit): Plan => {
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  return edit.value.plan;
};

const tank = samplePlan.points.find(({ role }) => role === 'tank');
const pump = samplePlan.points.find(({ role }) => role === 'pump');
const source = samplePlan.points.find(({ role }) => role === 'source');
if (!tank || !pump || !source) throw new Error('found a sample without source, pump and tank');

const near = (share: number) => ({ lon: source.position.lon + share * 1e-3, lat: source.position.lat + share * 1e-3 });

const record: RunRecord = {
  date: '2026-05-14',
  by: 'Ann',
  level: 2,
  beatsPerMinute: 50,
  waste: null,
  delivery: null,
  deliveryReadAt: 'pump',
  gaugeRest: null,
  gaugeRunning: null,
  gaugeSwing: null,
  valveWeight: null,
  valveStroke: null,
  note: '',
};

/** What somebody out of doors may do, one after the other; what cannot be done to a plan leaves it as it is. */
const steps: readonly ((plan: Plan, k: number) => Edit)[] = [
  (plan, k) => movePoint(plan, tank.id, near(k)),
  (plan, k) => addPoint(plan, 'trough', near(k)),
  (plan) => renamePoint(plan, pump.id, 'Pump by the willow'),
  (plan, k) => changePoint(plan, pump.id, 'pump', { wasteValveHeight: k / 10 }),
  (plan, k) => addMeasurement(plan, { kind: 'difference', from: source.id, to: pump.id, rise: -k, plusMinus: 0.02 }),
  (plan) => changeMeasurement(plan, 0, null),
  (plan, k) =>
    setYieldReadings(plan, [
      ...plan.yieldReadings,
      { kind: 'timed', volume: 0.01, volumePlusMinus: 0.0001, times: [30 + k, 31] },
    ]),
  (plan) => setRecords(plan, [...(plan.records ?? []), record]),
  (plan, k) => changeSettings(plan, { waterTemperature: 5 + k }),
  (plan) => removeRoute(plan, plan.routes.at(-1)?.id ?? ''),
  (plan) => removePoint(plan, plan.points.at(-1)?.id ?? ''),
  (plan, k) => addRoute(plan, { role: 'gravity', from: tank.id, to: plan.points.at(-1)?.id ?? '', between: [near(k)] }),
];

function outOfDoors(plan: Plan, taken: readonly (readonly [number, number])[]): Plan {
  return taken.reduce((before, [step, k]) => {
    const edit = steps[step % steps.length]?.(before, k);
    return edit?.ok ? edit.value.plan : before;
  }, plan);
}

/** A plan without the order of its lists. */
function unordered(plan: Plan): unknown {
  const sorted = (list: readonly unknown[] = []) => list.map((each) => JSON.stringify(each)).sort();
  const { points, routes, measurements, yieldReadings, records, pipes: _, terrain: __, ...rest } = plan;
  const laid = routes.map(({ pipe, ...route }) => ({ ...route, laid: plan.pipes.find(({ id }) => id === pipe) }));
  return [rest, sorted(points), sorted(laid), sorted(measurements), sorted(yieldReadings), sorted(records)];
}

const anySteps = fc.array(fc.tuple(fc.nat(steps.length - 1), fc.integer({ min: 1, max: 9 })), { maxLength: 8 });

describe('a plan that came back', () => {
  test('is the plan at home once every change is taken, where nothing was changed at home', () => {
    fc.assert(
      fc.property(anySteps, (taken) => {
        const back = outOfDoors(samplePlan, taken);
        const changes = fieldChanges(samplePlan, { asTaken: samplePlan, plan: back });
        const merged = made(takeChanges(samplePlan, back, changes));
        expect(unordered(merged)).toEqual(unordered(back));
        expect(fieldChanges(merged, { asTaken: samplePlan, plan: back })).toEqual([]);
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  test('leaves the plan at home as it is where nothing is taken', () => {
    const back = outOfDoors(samplePlan, [
      [0, 2],
      [7, 1],
    ]);
    expect(made(takeChanges(samplePlan, back, []))).toBe(samplePlan);
  });

  test('does not undo what was changed at home, and says where both changed the same', () => {
    const back = made(movePoint(made(addMeasurement(samplePlan, level)), tank.id, near(2)));
    const home = made(changeSettings(made(movePoint(samplePlan, tank.id, near(5))), { waterTemperature: 7 }));
    const changes = fieldChanges(home, { asTaken: samplePlan, plan: back });
    expect(changes.map(({ kind, clash }) => [kind, clash])).toEqual([
      ['point-moved', true],
      ['listed', false],
    ]);
    const words = changes.map((change) => fieldChangeWords(change, back, 'metric'));
    expect(words[0]).toMatch(/moved by \d+.*m \(also changed at home: taking it undoes that\)$/);
    expect(words[1]).toMatch(/^New: level, .*3\.42.m .*±0\.02.m/);
    const merged = made(takeChanges(home, back, changes.slice(1)));
    expect(merged.measurements).toEqual([...samplePlan.measurements, level]);
    expect(merged.points).toEqual(home.points);
    expect(merged.waterTemperature).toBe(7);
  });

  test('keeps two new points apart that were given one name of their own in both places', () => {
    const back = made(addPoint(samplePlan, 'trough', near(2)));
    const home = made(addPoint(samplePlan, 'trough', near(3)));
    const merged = made(takeChanges(home, back, fieldChanges(home, { asTaken: samplePlan, plan: back })));
    expect(merged.points).toHaveLength(samplePlan.points.length + 2);
    expect(new Set(merged.points.map(({ id }) => id)).size).toBe(merged.points.length);
  });

  test('does not lay a line to a point that was left', () => {
    const pointed = made(addPoint(samplePlan, 'trough', near(2)));
    const back = made(
      addRoute(pointed, { role: 'gravity', from: tank.id, to: pointed.points.at(-1)?.id ?? '', between: [] }),
    );
    const changes = fieldChanges(samplePlan, { asTaken: samplePlan, plan: back });
    const lineOnly = changes.filter(({ kind }) => kind === 'route-added');
    expect(takeChanges(samplePlan, back, lineOnly)).toMatchObject({
      ok: false,
      problems: [{ code: 'unknown-reference' }],
    });
  });
});

const level = { kind: 'difference', from: source.id, to: pump.id, rise: -3.42, plusMinus: 0.02 } as const;
