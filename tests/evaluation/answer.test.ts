import { describe, expect, test } from 'vitest';
import { evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
import { reachShare } from '../../src/evaluation/model/run-delivery.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { answerSentence, arrivesSentence } from '../../src/report/findings/answer-words.ts';
import { findingWords } from '../../src/report/findings/finding-words.ts';
import { assessmentJson } from '../../src/report/tables/assessment-json.ts';
import { type Case, evaluated, herdOf, hill } from './finding-cases.ts';
import { lidar, madeGround } from './made-ground.ts';
import { litresPerMinute, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const planOf = (made: Case): Plan => made.plan ?? workingPlan;
const drawn = (made: Case): Evaluation => evaluated(made, 1024);
const said = (made: Case): string => answerSentence(drawn(made).answer, planOf(made)).replace(/\s/g, ' ');

const yields = (flow: number): Plan => ({
  ...workingPlan,
  dryShare: 1,
  yieldReadings: [{ kind: 'stated', flow: litresPerMinute(flow), plusMinus: litresPerMinute(0.5) }],
});

const without = (...roles: string[]): Plan => ({
  ...workingPlan,
  points: workingPlan.points.filter(({ role }) => !roles.includes(role)),
  routes: workingPlan.routes.filter(({ role, from, to }) => {
    const gone = workingPlan.points.filter((p) => roles.includes(p.role)).map(({ id }) => id);
    return !roles.includes(role) && !gone.includes(from) && !gone.includes(to);
  }),
});

describe('the answer of a plan', () => {
  test('that runs and brings enough says so, with how much', () => {
    expect(said({})).toMatch(/^It will run and brings enough: about [\d .]+ L\/day, and 750 L\/day is needed\.$/);
    expect(drawn({}).answer.runs).toMatchObject({ verdict: 'holds', because: null });
  });

  test('too little water for the herd is not “does not run”', () => {
    const { answer } = drawn({ plan: herdOf(5000) });
    expect(answer.state).toBe('runs');
    expect(answer.arrives.verdict).toBe('fails');
    expect(said({ plan: herdOf(5000) })).toMatch(
      /^It will run, but brings too little: about [\d .]+ L\/day, and 5000 L\/day is needed\.$/,
    );
  });

  test('a lift beyond the printed range and a ditch 0.75 m deep are not “does not run” either', () => {
    const high = {
      plan: { ...without('trough'), herd: [] },
      heights: { spring: 102, standpipe: 101.1, tank: 160 },
      lengths: { supply: 20, drive: 12, delivery: 60 },
    };
    expect(drawn(high).answer.runs.verdict).not.toBe('fails');
    const sagging = (share: number) => 103.4 - 3.4 * share - 4 * 0.75 * share * (1 - share);
    expect(drawn({ bumps: { drive: sagging } }).answer.state).toBe('runs');
  });

  test('a tank below the running level of the source needs no ram', () => {
    const { answer } = drawn({ plan: without('trough'), heights: { tank: 101 } });
    expect(answer.state).toBe('no-pump-needed');
    expect(answer.runs.verdict).toBeNull();
    expect(said({ plan: without('trough'), heights: { tank: 101 } })).toMatch(
      /^No pump is needed: tank is below the source/,
    );
  });

  test('what is missing is named', () => {
    expect(said({ plan: without('delivery') })).toBe(
      'Not enough is drawn yet: a delivery line from the pump is missing.',
    );
    expect(said({ plan: without('tank', 'trough') })).toBe('Not enough is drawn yet: a tank or trough is missing.');
    expect(said({ plan: without('pump', 'trough') })).toMatch(/^Not enough is drawn yet: the pump/);
  });

  test('a source of 10.9 against a need of 15 L/min brings nothing, and what it would bring is told as that', () => {
    const plan: Plan = {
      ...yields(10.9),
      pump: { ...(workingPlan.pump as Extract<Plan['pump'], { kind: 'sheet' }>), intakeLeast: litresPerMinute(15) },
    };
    const { answer, tanks } = drawn({ plan });
    expect(answer.state).toBe('stops');
    expect(answer.runs.because?.code).toBe('source-short');
    expect(tanks[0]?.line?.deliveryPerDay).toEqual({ low: 0, likely: 0, high: 0 });
    expect(tanks[0]?.line?.ifRunningPerDay?.likely).toBeGreaterThan(0.5);
  });

  test('what arrives holds the draws in which the pump does not run', () => {
    const plan: Plan = { ...yields(10.2), pump: { ...(workingPlan.pump as Extract<Plan['pump'], { kind: 'sheet' }>) } };
    const { answer } = drawn({ plan });
    expect(answer.state).toBe('may-run');
    expect(answer.runs.chance).toBeGreaterThan(0.3);
    expect(answer.runs.chance).toBeLessThan(0.9);
    expect(answer.arrives.perDay?.low).toBe(0);
    expect(answer.arrives.perDay?.high).toBeGreaterThan(0);
  });

  test('the reason why too little arrives carries the numbers of its remedy', () => {
    const { because } = drawn({ plan: herdOf(5000) }).answer.arrives;
    if (because === null) throw new Error('found no reason, expected too little water');
    const { remedy } = findingWords(because, { units: 'metric', nameOf: (id) => id });
    expect(remedy).toMatch(/another [\d.]+\s*L\/day/);
  });

  test('nothing is promised of a mended plan in which nothing would arrive either', () => {
    // A tank far beyond the reach of the drive pipe's pressure wave.
    const made: Case = { plan: without('trough'), heights: { tank: 400 } };
    expect(drawn(made).answer.arrives.ifRunningPerDay?.likely).toBe(0);
    expect(arrivesSentence(drawn(made).answer, planOf(made))).not.toContain('mended');
  });

  test('without a pump the gravity lines answer', () => {
    const plan = without('pump', 'standpipe');
    expect(drawn({ plan }).answer.state).toBe('gravity');
    expect(said({ plan })).toMatch(/^The water runs by itself/);
  });

  test('findings stand in the order of what they do', () => {
    const order = ['running', 'safety', 'yield', 'practice'];
    const made: Case = {
      plan: { ...yields(6), herd: herdOf(5000).herd },
      bumps: { delivery: hill(100, 123, 140) },
      lengths: { drive: 70, supply: 30 },
    };
    const open = drawn(made).findings.filter(({ verdict }) => verdict !== 'holds');
    expect(open.length).toBeGreaterThan(1);
    const ranks = open.map(({ bears }) => order.indexOf(bears));
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
  });

  test('as JSON it has the three answers, and the old keys stay', () => {
    const json = assessmentJson(workingPlan, drawn({ accuracy: lidar })) as Record<string, unknown>;
    expect(json.answer).toMatchObject({
      state: 'runs',
      runs: { verdict: 'holds', chance: expect.any(Number), because: null },
      arrives: { about: 'tank', verdict: 'holds', need_L_per_day: 750 },
      first: { quantity: 'source-yield' },
    });
    expect(json).toMatchObject({ verdict: 'holds', findings: expect.any(Array), measure_first: expect.any(Array) });
  });

  test('nothing is said of a tank that is set aside, and nothing measured for it', () => {
    const aside: Plan = {
      ...herdOf(5000),
      points: workingPlan.points.map((p) => (p.role === 'tank' ? { ...p, standing: 'set-aside' } : p)),
    };
    const { findings, measureFirst } = drawn({ plan: aside, accuracy: lidar });
    expect(findings.filter(({ about }) => about === 'tank' || about === 'delivery')).toEqual([]);
    expect(measureFirst.filter(({ about }) => about === 'tank')).toEqual([]);
  });
});

describe('near the reach of the pressure wave', () => {
  test('the yield falls to nothing smoothly', () => {
    // 4 (μ − 1)/μ² at μ = 1.5: 0.889; at 1.1: 0.331. By hand.
    expect(reachShare(4 + 1.5 * 20, 4, 24)).toBeCloseTo(0.8889, 4);
    expect(reachShare(4 + 1.1 * 20, 4, 24)).toBeCloseTo(0.3306, 4);
    expect(reachShare(4 + 20, 4, 24)).toBe(0);
    expect(reachShare(4 + 2 * 20, 4, 24)).toBe(1);
  });
});

test('the running level does not stand above the standpipe’s top: what is too much spills, and how much is said', () => {
  const plan: Plan = {
    ...workingPlan,
    points: workingPlan.points.map((p) => (p.role === 'standpipe' ? { ...p, topHeight: 0.6 } : p)),
  };
  const ground = madeGround(plan, { heights: workingHeights, lengths: workingLengths });
  const result = evaluateDrawn(plan, ground, { count: 256, seed: 1 });
  expect(result.standpipe?.runningLevel.likely).toBeCloseTo(103.4 + 0.6, 9);
  expect(result.pump?.spill?.likely).toBeGreaterThan(0);
  expect(result.pump?.fall.likely).toBeCloseTo(103.4 + 0.6 - 100.2, 9);
});
