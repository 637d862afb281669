import fc from 'fast-check';
import { expect, test } from 'vitest';
import { commit, type History, redo, startHistory, undo } from '../../src/plan/edits/history.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { emptyPlan } from '../../src/plan/model/empty-plan.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { samplePlan } from './sample-plan.ts';
import { afternoon, type Step } from './steps.ts';

const start = fc.constantFrom(emptyPlan({ name: 'New', units: 'us' }), samplePlan);

/** Every plan that the steps lead to; refused steps lead nowhere. */
function plansAfter(plan: Plan, steps: readonly Step[]): readonly Plan[] {
  const plans = [plan];
  for (const step of steps) {
    const edit = step(plans.at(-1) ?? plan);
    if (edit.ok) plans.push(edit.value.plan);
  }
  return plans;
}

test('whatever is edited, a saved plan is read back to the last bit', () => {
  let edits = 0;
  fc.assert(
    fc.property(start, afternoon, (plan, steps) => {
      for (const each of plansAfter(plan, steps)) {
        edits += 1;
        expect(readPlan(writePlan(each))).toEqual({ ok: true, value: each });
      }
    }),
    { numRuns: 60 },
  );
  // The law would hold of nothing if every step were refused.
  expect(edits).toBeGreaterThan(300);
});

test('an edit leaves the plan it started from as it was, and shares what it did not touch', () => {
  fc.assert(
    fc.property(start, afternoon, (plan, steps) => {
      let before = plan;
      for (const step of steps) {
        const text = writePlan(before);
        const edit = step(before);
        expect(writePlan(before)).toBe(text);
        if (!edit.ok) continue;
        const after = edit.value.plan;
        const kept = new Map(before.points.map((point) => [point.id, point]));
        for (const point of after.points) {
          const old = kept.get(point.id);
          const same = old !== undefined && JSON.stringify(old) === JSON.stringify(point);
          if (same && edit.value.label.code !== 'move-point') expect(point).toBe(old);
        }
        before = after;
      }
    }),
    { numRuns: 60 },
  );
});

test('undo gives every plan back in turn, and redo makes every step again', () => {
  fc.assert(
    fc.property(start, afternoon, (plan, steps) => {
      const trail: History[] = [startHistory(plan)];
      for (const step of steps) {
        const now = trail.at(-1) ?? startHistory(plan);
        const edit = step(now.present);
        if (edit.ok && edit.value.plan !== now.present) trail.push(commit(now, edit.value));
      }
      let now = trail.at(-1) ?? startHistory(plan);
      for (const earlier of trail.toReversed()) {
        expect(now.present).toBe(earlier.present);
        now = undo(now);
      }
      expect(now.past).toEqual([]);
      for (const later of trail) {
        expect(now.present).toBe(later.present);
        expect(now.past.length).toBe(later.past.length);
        now = redo(now);
      }
      expect(now.future).toEqual([]);
    }),
    { numRuns: 60 },
  );
});
