import { expect, test } from 'vitest';
import type { Edit, Edited } from '../../src/plan/edits/edit.ts';
import { movePoint, renamePoint } from '../../src/plan/edits/edit-points.ts';
import {
  commit,
  commitDraft,
  draftEdit,
  dropDraft,
  goToStep,
  type History,
  mostSteps,
  redo,
  shownPlan,
  startHistory,
  stepsTaken,
  undo,
} from '../../src/plan/edits/history.ts';
import { samplePlan } from './sample-plan.ts';

function made(edit: Edit): Edited {
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  return edit.value;
}

function renamed(history: History, name: string): History {
  return commit(history, made(renamePoint(history.present, 'tank-1', name)));
}

const places = [1, 2, 3].map((step) => ({ lon: -30 + step / 1000, lat: 40 }));

test('a drag shows every place on the way and is one step to undo', () => {
  let history = startHistory(samplePlan);
  for (const place of places) {
    history = draftEdit(history, made(movePoint(history.present, 'tank-1', place)));
    expect(shownPlan(history).points[3]?.position).toEqual(place);
    expect(history.past).toEqual([]);
  }
  history = commitDraft(history);
  expect(history.past.map(({ label }) => label)).toEqual([{ code: 'move-point', name: 'Hill tank' }]);
  expect(shownPlan(history).points[3]?.position).toEqual(places[2]);
  expect(undo(history).present).toBe(samplePlan);
});

test('a drag given up leaves the plan and the steps as they were', () => {
  const history = renamed(startHistory(samplePlan), 'Old oak');
  const dragged = draftEdit(history, made(movePoint(history.present, 'tank-1', { lon: 0, lat: 0 })));
  expect(dropDraft(dragged)).toEqual(history);
  expect(shownPlan(undo(dragged))).toBe(samplePlan);
});

test('a drag back to where it began is no step', () => {
  const history = startHistory(samplePlan);
  const there = made(movePoint(samplePlan, 'tank-1', { lon: -29.9991, lat: 40.0032 }));
  expect(commitDraft(draftEdit(history, there)).past).toEqual([]);
});

test('a new step after an undo takes the place of the undone ones', () => {
  const history = renamed(undo(renamed(startHistory(samplePlan), 'Old oak')), 'Young oak');
  expect(history.future).toEqual([]);
  expect(history.past).toHaveLength(1);
  expect(redo(history).present.points[3]?.name).toBe('Young oak');
});

test('undo and redo with nothing to do change nothing', () => {
  const history = startHistory(samplePlan);
  expect(undo(history)).toBe(history);
  expect(redo(history)).toBe(history);
});

test('the oldest steps are forgotten', () => {
  let history = startHistory(samplePlan);
  for (let step = 0; step < mostSteps + 20; step += 1) history = renamed(history, `Tank ${step}`);
  expect(history.past).toHaveLength(mostSteps);
  expect(history.past[0]?.plan.points[3]?.name).toBe('Tank 19');
});

test('any step can be gone to, back and forward, and gives the very plan that was there', () => {
  const names = ['A', 'B', 'C', 'D'];
  let last = startHistory(samplePlan);
  const states = [last];
  for (const name of names) {
    last = renamed(last, name);
    states.push(last);
  }
  for (const [from, state] of states.entries()) {
    for (const [to, wanted] of states.entries()) {
      const gone = goToStep(goToStep(last, from), to);
      expect(gone.present).toBe(wanted.present);
      expect(goToStep(last, from).present).toBe(state.present);
      expect(stepsTaken(gone)).toBe(to);
      expect(gone.past.length + gone.future.length).toBe(names.length);
    }
  }
});

test('going further than there are steps stops at the first and at the last one', () => {
  const history = renamed(renamed(startHistory(samplePlan), 'A'), 'B');
  expect(goToStep(history, -3).present).toBe(samplePlan);
  expect(goToStep(goToStep(history, 0), 99).present).toBe(history.present);
});
