import { expect, test } from 'vitest';
import { renamePoint } from '../../src/plan/edits/edit-points.ts';
import { changeSettings } from '../../src/plan/edits/edit-settings.ts';
import { commit, goToStep, type History, startHistory } from '../../src/plan/edits/history.ts';
import { listedSteps, stepWords } from '../../src/report/words/step-words.ts';
import { samplePlan } from '../plan/sample-plan.ts';

function renamed(history: History, name: string): History {
  const made = renamePoint(history.present, 'tank-1', name);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return commit(history, made.value);
}

const three = ['A', 'B', 'C'].reduce(renamed, startHistory(samplePlan));

test('the list of steps says which led here, which is the last one and which are undone', () => {
  const standings = (taken: number) => listedSteps(goToStep(three, taken)).map(({ standing }) => standing);
  expect(standings(3)).toEqual(['done', 'done', 'done', 'now']);
  expect(standings(1)).toEqual(['done', 'now', 'undone', 'undone']);
  expect(standings(0)).toEqual(['now', 'undone', 'undone', 'undone']);
});

test('the list of steps reads the same wherever in it the plan stands', () => {
  const words = (taken: number) => listedSteps(goToStep(three, taken)).map((step) => step.words);
  for (const taken of [0, 1, 2]) expect(words(taken)).toEqual(words(3));
});

test('going to the number of a line makes that line the present one', () => {
  for (const { steps } of listedSteps(three)) {
    expect(listedSteps(goToStep(three, steps))[steps]?.standing).toBe('now');
  }
});

test('naming the plan and turning the units are told apart from other settings', () => {
  const label = (changes: Parameters<typeof changeSettings>[1]) => {
    const made = changeSettings(samplePlan, changes);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    return stepWords(made.value.label);
  };
  expect(label({ name: 'Upper field' })).toBe('name the plan Upper field');
  expect(label({ units: 'us' })).toBe('show other units');
  expect(label({ name: 'Upper field', units: 'us' })).toBe('change the settings');
  expect(label({ confidence: 0.9 })).toBe('change the settings');
});
