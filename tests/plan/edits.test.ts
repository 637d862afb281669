import { describe, expect, test } from 'vitest';
import type { Edit } from '../../src/plan/edits/edit.ts';
import {
  addPoint,
  changePoint,
  movePoint,
  removePoint,
  renamePoint,
  setStanding,
} from '../../src/plan/edits/edit-points.ts';
import { addRoute, drawRoute, removeRoute, setFittings, setRoutePipe } from '../../src/plan/edits/edit-routes.ts';
import { changeSettings, replacePlan } from '../../src/plan/edits/edit-settings.ts';
import { deleteVertex, insertVertex, moveVertex } from '../../src/plan/edits/edit-vertices.ts';
import {
  addMeasurement,
  changeMeasurement,
  removeMeasurement,
  setHerd,
  setMeasurement,
  setPump,
} from '../../src/plan/edits/edit-water.ts';
import { emptyPlan } from '../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { notChosenYet } from '../../src/plan/model/starting-pipe.ts';
import { samplePlan } from './sample-plan.ts';

const somewhere = { lon: -30.002, lat: 40.003 };

function done(edit: Edit): Plan {
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  return edit.value.plan;
}

function codes(edit: Edit): readonly string[] {
  return edit.ok ? [] : edit.problems.map(({ code }) => code);
}

describe('points', () => {
  test('a new tank gets the number after the highest, and a name made from it', () => {
    const once = done(addPoint(samplePlan, 'tank', somewhere));
    const twice = done(addPoint(once, 'tank', somewhere));
    expect(twice.points.slice(-2).map(({ id, name }) => [id, name])).toEqual([
      ['tank-2', 'Tank 2'],
      ['tank-3', 'Tank 3'],
    ]);
    expect(done(addPoint(done(removePoint(twice, 'tank-2')), 'tank', somewhere)).points.at(-1)?.id).toBe('tank-4');
  });

  test('a second pump is refused', () => {
    expect(codes(addPoint(samplePlan, 'pump', somewhere))).toEqual(['second-of-role']);
  });

  test('a point outside the world is refused, and so is one that is nowhere', () => {
    expect(codes(addPoint(samplePlan, 'tank', { lon: 181, lat: 0 }))).toEqual(['out-of-range']);
    expect(new Set(codes(movePoint(samplePlan, 'tank-1', { lon: Number.NaN, lat: 0 })))).toEqual(
      new Set(['wrong-type']),
    );
  });

  test('moving a point takes the ends of its routes along, and nothing else', () => {
    const moved = done(movePoint(samplePlan, 'pump-1', somewhere));
    const [supply, drive, delivery, gravity] = moved.routes;
    expect(drive?.vertices).toEqual([samplePlan.routes[1]?.vertices[0], somewhere]);
    expect(delivery?.vertices).toEqual([somewhere, ...(samplePlan.routes[2]?.vertices.slice(1) ?? [])]);
    expect(supply).toBe(samplePlan.routes[0]);
    expect(gravity).toBe(samplePlan.routes[3]);
    expect(moved.points[0]).toBe(samplePlan.points[0]);
    expect(moved.pipes).toBe(samplePlan.pipes);
  });

  test('a point is moved when only its longitude or only its latitude changes', () => {
    const [east, north] = [
      { lon: -29.999, lat: 40.0032 },
      { lon: -29.9991, lat: 40.004 },
    ];
    expect(done(movePoint(samplePlan, 'tank-1', east)).points[3]?.position).toEqual(east);
    expect(done(movePoint(samplePlan, 'tank-1', north)).points[3]?.position).toEqual(north);
  });

  test('what was measured of other points stays when a point is removed', () => {
    const taken = { kind: 'height', point: 'trough-1', height: 90, plusMinus: 0.1 } as const;
    const less = done(removePoint(done(setMeasurement(samplePlan, taken)), 'source-1'));
    expect(less.measurements).toEqual([samplePlan.measurements[0], taken]);
  });

  test('removing a point takes its routes and its measurements along', () => {
    const less = done(removePoint(samplePlan, 'pump-1'));
    expect(less.points.map(({ id }) => id)).toEqual(['source-1', 'standpipe-1', 'tank-1', 'trough-1']);
    expect(less.routes.map(({ id }) => id)).toEqual(['supply-1', 'gravity-1']);
    expect(less.measurements).toEqual([]);
  });

  test('heights belong to a role: a trough has no waste valve to set', () => {
    expect(done(changePoint(samplePlan, 'pump-1', 'pump', { wasteValveHeight: 0.15 })).points[2]).toMatchObject({
      wasteValveHeight: 0.15,
    });
    expect(codes(changePoint(samplePlan, 'trough-1', 'pump', { wasteValveHeight: 0.15 }))).toEqual(['wrong-role']);
    expect(codes(changePoint(samplePlan, 'standpipe-1', 'standpipe', { topHeight: 0.1 }))).toEqual(['out-of-order']);
  });

  test('one tank is kept, another set aside; a pump is neither', () => {
    expect(done(setStanding(samplePlan, 'tank-1', 'set-aside')).points[3]).toMatchObject({ standing: 'set-aside' });
    expect(codes(setStanding(samplePlan, 'pump-1', 'kept'))).toEqual(['wrong-role']);
  });

  test('an edit says what it did by a code and the name of the thing', () => {
    const edit = removePoint(samplePlan, 'tank-1');
    expect(edit.ok && edit.value.label).toEqual({ code: 'remove-point', name: 'Hill tank' });
  });

  test('what is not there cannot be edited', () => {
    const edits = [
      movePoint(samplePlan, 'tank-9', somewhere),
      removePoint(samplePlan, 'tank-9'),
      renamePoint(samplePlan, 'tank-9', 'x'),
      setStanding(samplePlan, 'tank-9', 'kept'),
      removeRoute(samplePlan, 'drive-9'),
      addRoute(samplePlan, { role: 'gravity', from: 'tank-9', to: 'trough-1', between: [] }),
      addRoute(samplePlan, { role: 'gravity', from: 'tank-1', to: 'trough-9', between: [] }),
      moveVertex(samplePlan, 'drive-9', 1, somewhere),
      removeMeasurement(samplePlan, 'tank-1'),
    ];
    expect(edits.map(codes)).toEqual(edits.map(() => ['unknown-reference']));
  });
});

describe('routes', () => {
  const drawn = done(addPoint(samplePlan, 'tank', somewhere));

  test('a new route starts and ends at its points and is laid in a pipe that nobody has chosen', () => {
    const plan = done(addRoute(drawn, { role: 'delivery', from: 'pump-1', to: 'tank-2', between: [] }));
    const route = plan.routes.at(-1);
    expect(route).toMatchObject({ id: 'delivery-2', from: 'pump-1', to: 'tank-2', fittings: [], summits: 'closed' });
    expect(route?.vertices).toEqual([samplePlan.points[2]?.position, somewhere]);
    const pipe = plan.pipes.find(({ id }) => id === route?.pipe);
    expect(pipe).toMatchObject({ kind: 'own', label: notChosenYet, rating: null });
  });

  test('a delivery route cannot lead to the source, and a tank has one delivery route', () => {
    expect(codes(addRoute(drawn, { role: 'delivery', from: 'pump-1', to: 'source-1', between: [] }))).toEqual([
      'wrong-role',
    ]);
    expect(codes(addRoute(drawn, { role: 'delivery', from: 'pump-1', to: 'tank-1', between: [] }))).toEqual([
      'fed-twice',
    ]);
  });

  test('routes laid in the same pipe share its entry; a pipe that no route uses is dropped', () => {
    const same = done(setRoutePipe(samplePlan, 'drive-1', { kind: 'row', row: 'pvc-sch40-2in' }));
    expect(same.routes[1]?.pipe).toBe('pipe-1');
    expect(same.pipes.map(({ id }) => id)).toEqual(['pipe-1', 'pipe-3']);
    expect(done(removeRoute(same, 'delivery-1')).pipes.map(({ id }) => id)).toEqual(['pipe-1', 'pipe-3']);
  });

  test('a pipe that the handbook does not have is refused', () => {
    expect(codes(setRoutePipe(samplePlan, 'drive-1', { kind: 'row', row: 'bamboo' }))).toEqual(['unknown-row']);
  });

  test('a fitting counted down to zero leaves the list', () => {
    const counts = [
      { fitting: 'elbow-45', count: 0 },
      { fitting: 'valve-gate', count: 1 },
    ];
    expect(done(setFittings(samplePlan, 'drive-1', counts)).routes[1]?.fittings).toEqual(counts.slice(1));
  });

  test('vertices between the ends are moved, put in and taken out; the ends move with their points', () => {
    const [a, b, c] = samplePlan.routes[0]?.vertices ?? [];
    const line = (edit: Edit) => done(edit).routes[0]?.vertices;
    expect(line(moveVertex(samplePlan, 'supply-1', 1, somewhere))).toEqual([a, somewhere, c]);
    expect(line(insertVertex(samplePlan, 'supply-1', 1, somewhere))).toEqual([a, somewhere, b, c]);
    expect(line(insertVertex(samplePlan, 'supply-1', 2, somewhere))).toEqual([a, b, somewhere, c]);
    expect(line(deleteVertex(samplePlan, 'supply-1', 1))).toEqual([a, c]);
    expect(line(drawRoute(samplePlan, 'supply-1', [somewhere, somewhere]))).toEqual([a, somewhere, somewhere, c]);
    for (const index of [0, 2, -1, 0.5, 3]) {
      expect(codes(moveVertex(samplePlan, 'supply-1', index, somewhere))).toEqual(['not-between-ends']);
      expect(codes(deleteVertex(samplePlan, 'supply-1', index))).toEqual(['not-between-ends']);
    }
    for (const index of [0, 3]) {
      expect(codes(insertVertex(samplePlan, 'supply-1', index, somewhere))).toEqual(['not-between-ends']);
    }
  });
});

describe('everything else', () => {
  test('a later measurement of a point takes the place of the earlier one', () => {
    const taken = { kind: 'difference', from: 'source-1', to: 'tank-1', rise: 18.2, plusMinus: 0.05 } as const;
    const levelled = done(setMeasurement(samplePlan, taken));
    const again = done(setMeasurement(levelled, { kind: 'height', point: 'tank-1', height: 122.1, plusMinus: 0.1 }));
    expect(again.measurements.map(({ kind }) => kind)).toEqual(['height', 'difference', 'height']);
    expect(done(removeMeasurement(again, 'tank-1')).measurements).toEqual(samplePlan.measurements);
  });

  test('a level back over the same way and a second reading of one point are kept beside the first', () => {
    const back = { kind: 'difference', from: 'source-1', to: 'pump-1', rise: -3.41, plusMinus: 0.05 } as const;
    const twice = done(addMeasurement(done(addMeasurement(samplePlan, back)), back));
    expect(twice.measurements).toEqual([...samplePlan.measurements, back, back]);
    const aside = done(changeMeasurement(twice, 2, { ...back, standing: 'set-aside' }));
    expect(aside.measurements[2]).toEqual({ ...back, standing: 'set-aside' });
    expect(done(changeMeasurement(aside, 2, null)).measurements).toEqual([...samplePlan.measurements, back]);
    expect(codes(changeMeasurement(aside, 9, null))).toEqual(['unknown-reference']);
  });

  test('a level from a point to itself is refused', () => {
    const none = { kind: 'difference', from: 'pump-1', to: 'pump-1', rise: 0, plusMinus: 0.05 } as const;
    expect(codes(addMeasurement(samplePlan, none))).toEqual(['level-to-itself']);
  });

  test('a pump whose least intake is above its most is refused, and none at all is accepted', () => {
    if (samplePlan.pump?.kind !== 'sheet') throw new Error('expected a sheet');
    expect(codes(setPump(samplePlan, { ...samplePlan.pump, intakeLeast: 1 }))).toEqual(['out-of-order']);
    expect(done(setPump(samplePlan, null)).pump).toBeNull();
  });

  test('settings change one by one, the rest is shared', () => {
    const colder = done(changeSettings(samplePlan, { waterTemperature: 4 }));
    expect(colder).toEqual({ ...samplePlan, waterTemperature: 4 });
    expect(colder.pump).toBe(samplePlan.pump);
    expect(colder.points).toBe(samplePlan.points);
    expect(codes(changeSettings(samplePlan, { waterTemperature: 70 }))).toEqual(['out-of-range']);
  });

  test('an edit that changes nothing gives the very same plan', () => {
    const edits = [
      changeSettings(samplePlan, { waterTemperature: 11.5 }),
      renamePoint(samplePlan, 'tank-1', 'Hill tank'),
      movePoint(samplePlan, 'tank-1', { lon: -29.9991, lat: 40.0032 }),
      setStanding(samplePlan, 'tank-1', 'kept'),
      setHerd(samplePlan, samplePlan.herd),
    ];
    for (const edit of edits) expect(done(edit)).toBe(samplePlan);
  });

  test('another plan takes the place of this one', () => {
    const other = emptyPlan({ name: 'Other', units: 'us' });
    expect(done(replacePlan(samplePlan, other))).toEqual(other);
  });
});
