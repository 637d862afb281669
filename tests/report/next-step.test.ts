import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/model/plan.ts';
import { nextStep, nextStepWords } from '../../src/report/tables/next-step.ts';
import { sheet, workingPlan } from '../evaluation/made-plan.ts';
import { planMade } from './plan-made.ts';

const said = (plan: Plan) => {
  const step = nextStep(plan);
  return step === null ? null : nextStepWords(step);
};

const READ: Pick<Plan, 'yieldReadings' | 'herd'> = {
  yieldReadings: [{ kind: 'stated', flow: 0.0005, plusMinus: 0.0001 }],
  herd: [{ kind: 'own', label: 'cows', needPerDay: 0.05, count: 10 }],
};

describe('one next step at a time', () => {
  it('goes the way of the water, from an empty plan to a whole one', () => {
    expect(said(planMade([]))).toBe('place the source');
    expect(said(planMade(['source']))).toBe('say what the source gives');
    expect(said({ ...planMade(['source']), ...READ })).toMatch(/^place the pump/);
    expect(said({ ...planMade(['source', 'pump']), ...READ })).toMatch(/^place a tank/);
    expect(said({ ...planMade(['source', 'pump', 'tank']), ...READ, herd: [] })).toBe('say which animals drink');
    expect(said({ ...planMade(['source', 'pump', 'tank']), ...READ })).toMatch(/^find a drive pipe to /);
    const driven = { ...planMade(['source', 'pump', 'tank'], [['drive', 'source-1', 'pump-1']]), ...READ };
    expect(said(driven)).toMatch(/^find a delivery line to /);
    expect(said({ ...workingPlan, pump: null })).toBe('choose a pump');
    expect(nextStep({ ...workingPlan, pump: sheet })).toBeNull();
  });

  it('finds the lines to several tanks in one go', () => {
    const plan = { ...planMade(['source', 'pump', 'tank', 'tank'], [['drive', 'source-1', 'pump-1']]), ...READ };
    expect(nextStep(plan)).toMatchObject({ do: 'lines' });
    expect(said(plan)).toBe('find delivery lines to all 2 tanks');
  });
});
