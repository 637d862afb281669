import { describe, expect, it } from 'vitest';
import { addArea, changeArea, removeArea } from '../../src/plan/edits/edit-points.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { workingPlan } from '../evaluation/made-plan.ts';

const corners = [
  { lon: -40, lat: 38.001 },
  { lon: -39.999, lat: 38.001 },
  { lon: -39.999, lat: 38.002 },
];

function withArea() {
  const made = addArea(workingPlan, corners);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value.plan;
}

describe('an area that no line may cross', () => {
  it('is kept in the plan file and read again, with name, note and gates', () => {
    const named = changeArea(withArea(), 'area-1', {
      name: 'Road',
      note: 'the county’s',
      gates: [{ lon: -39.9995, lat: 38.001 }],
    });
    if (!named.ok) throw new Error(JSON.stringify(named.problems));
    const read = readPlan(writePlan(named.value.plan));
    expect(read.ok && read.value.areas).toEqual(named.value.plan.areas);
  });

  it('needs three corners', () => {
    expect(addArea(workingPlan, corners.slice(0, 2)).ok).toBe(false);
  });

  it('has an id of its own, and goes again', () => {
    const twice = addArea(withArea(), corners);
    expect(twice.ok && twice.value.plan.areas.map(({ id }) => id)).toEqual(['area-1', 'area-2']);
    const removed = removeArea(withArea(), 'area-1');
    expect(removed.ok && removed.value.plan.areas).toEqual([]);
  });
});
