import { describe, expect, test } from 'vitest';
import { FINDINGS, type FindingCode } from '../../src/evaluation/findings/catalogue.ts';
import type { Finding } from '../../src/evaluation/result/evaluation.ts';
import type { Verdict } from '../../src/evaluation/statistics/estimate.ts';
import { CASES, evaluated, findings, hill } from './finding-cases.ts';
import { coarse, lidar } from './made-ground.ts';
import { workingPlan } from './made-plan.ts';

const TABLE = Object.entries(CASES).flatMap(([code, cases]) =>
  Object.entries(cases).map(([verdict, made]) => [code as FindingCode, verdict as Verdict, made] as const),
);

/** Plans that are wrong in one way. */
const WRONG = Object.entries(CASES).flatMap(([code, { fails }]) => (fails ? [[code, fails] as const] : []));

describe('findings', () => {
  test.each(TABLE)('%s can come out as %s', (code, verdict, made) => {
    const own = findings(made).filter((f) => f.code === code && (made.about === undefined || f.about === made.about));
    expect(own.map((f) => `${f.verdict} ${f.chance.toFixed(3)} ${JSON.stringify(f.value)}`)).toEqual([
      expect.stringMatching(new RegExp(`^${verdict} `)),
    ]);
  });

  test.each(TABLE)('%s comes out as %s by draws too', (code, verdict, made) => {
    const own = findings(made, 512).filter(
      (f) => f.code === code && (made.about === undefined || f.about === made.about),
    );
    expect(own.map((f) => `${f.verdict} ${f.chance.toFixed(3)}`)).toEqual([
      expect.stringMatching(new RegExp(`^${verdict} `)),
    ]);
  });

  test.each(Object.entries(FINDINGS))('%s has a case for everything it can come out as', (code, { reaches }) => {
    expect(Object.keys(CASES[code as FindingCode]).toSorted()).toEqual([...reaches].toSorted());
  });

  test('only what nobody can know from a desk has to be measured by its nature', () => {
    const open = Object.entries(FINDINGS).filter(([, { reaches }]) => reaches.length < 3);
    expect(open.map(([code]) => code)).toEqual([
      'ground-unknown',
      'point-unknown',
      'across-files',
      'reading-contradicts',
      'line-crosses',
      'yield-unread',
      'readings-few',
      'pump-unchosen',
      'run-unlike',
      'delivery-head',
      'pipe-warm',
    ]);
  });

  test('a plan that works shows nothing to mend', () => {
    expect(findings({ accuracy: lidar }).filter((f) => f.verdict !== 'holds')).toEqual([]);
  });

  test.each(WRONG)('a plan that is wrong in one way is told one thing: %s', (code, made) => {
    const open = findings(made).filter((f) => f.verdict !== 'holds');
    expect(open.map((f) => f.code)).toEqual([code, ...(made.also ?? [])]);
  });

  test('no two findings say the same of the same thing', () => {
    const said = findings({
      accuracy: coarse,
      bumps: { delivery: hill(100, 123, 140), supply: hill(104.5, 103.4, 105.2) },
    });
    expect(new Set(said.map((f) => `${f.code} ${f.about}`)).size).toBe(said.length);
  });

  test('asking for more confidence never turns a doubt into a certainty', () => {
    const at = (confidence: number) => findings({ plan: { ...workingPlan, confidence }, accuracy: coarse });
    const open = (fs: readonly Finding[]) => fs.filter((f) => f.verdict === 'measure').length;
    expect(open(at(0.99))).toBeGreaterThanOrEqual(open(at(0.9)));
    expect(open(at(0.9))).toBeGreaterThanOrEqual(open(at(0.6)));
  });
});

describe('what to measure', () => {
  // A pump that nobody has chosen is chosen, not measured.
  const OPEN = TABLE.filter(([code, verdict]) => verdict === 'measure' && code !== 'pump-unchosen');

  test.each(OPEN)('%s that must be measured stands in the list of what to measure', (code, _, made) => {
    const { measureFirst } = evaluated(made);
    expect(measureFirst.flatMap(({ settles }) => settles)).toContain(code);
  });
});
