import { expect, test } from 'vitest';
import { deskOfWork, workOfDesk } from '../../../src/app/autosave/work-of-alternatives.ts';
import { changeSettings } from '../../../src/plan/edits/edit-settings.ts';
import { commit, type History, startHistory, undo } from '../../../src/plan/edits/history.ts';
import { workingPlan } from '../../evaluation/made-plan.ts';

/** So many steps: each names the plan anew. */
function renamed(times: number): History {
  let history = startHistory(workingPlan);
  for (let step = 1; step <= times; step++) {
    const made = changeSettings(history.present, { name: `name ${step}` });
    if (!made.ok) throw new Error('found a name that is refused, expected one that is taken');
    history = commit(history, made.value);
  }
  return history;
}

function afterReload(history: History): History {
  const sheet = { id: 'sheet', history, savedPlan: workingPlan, demo: false };
  const work = workOfDesk({ id: 'work', shown: 'sheet', sheets: [sheet] }, [], 0);
  const opened = deskOfWork(JSON.parse(JSON.stringify(work)), { asCopy: false });
  const kept = opened.ok ? opened.value.sheets[0]?.history : undefined;
  if (kept === undefined) throw new Error('found no sheet, expected the one that was kept');
  return kept;
}

test('steps survive a reload and are undone one by one, the newest forty of them', () => {
  for (const [made, kept] of [
    [0, 0],
    [3, 3],
    [60, 40],
  ] as const) {
    let history = afterReload(renamed(made));
    expect(history.past.map(({ label }) => label.code)).toEqual(Array.from({ length: kept }, () => 'name-plan'));
    for (let step = made; step > made - kept; step--) {
      expect(history.present.name).toBe(`name ${step}`);
      history = undo(history);
    }
    expect(history.present.name).toBe(made === kept ? 'invented' : `name ${made - kept}`);
  }
});
