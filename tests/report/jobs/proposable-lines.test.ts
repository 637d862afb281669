import { describe, expect, test } from 'vitest';
import { setStanding } from '../../../src/plan/edits/edit-points.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { lineEndHeight, proposableLines } from '../../../src/report/tables/proposable-lines.ts';
import { noProposalSentence, proposedWords } from '../../../src/report/words/proposal-words.ts';
import { made, planMade } from '../plan-made.ts';

const named = (plan: Plan) => proposableLines(plan).map(({ role, from, to }) => `${role} ${from.id} ${to.id}`);

describe('lines that a plan lacks', () => {
  test('run from each point to the next that is placed', () => {
    expect(named(planMade(['source', 'standpipe', 'pump', 'tank']))).toEqual([
      'supply source-1 standpipe-1',
      'drive standpipe-1 pump-1',
      'delivery pump-1 tank-1',
    ]);
    expect(named(planMade(['source', 'pump']))).toEqual(['drive source-1 pump-1']);
  });

  test('lead to a trough from each tank, or from the source where there is no tank', () => {
    expect(named(planMade(['source', 'trough']))).toEqual(['gravity source-1 trough-1']);
    expect(named(planMade(['tank', 'tank', 'trough']))).toEqual(['gravity tank-1 trough-1', 'gravity tank-2 trough-1']);
  });

  test('are not those that are drawn, nor those to tanks that are set aside', () => {
    const drawn = planMade(['pump', 'tank', 'tank'], [['delivery', 'pump-1', 'tank-1']]);
    expect(named(drawn)).toEqual(['delivery pump-1 tank-2']);
    expect(named(made(setStanding(drawn, 'tank-2', 'set-aside')))).toEqual([]);
  });

  test('begin at a tank at its outlet and end at its inlet', () => {
    const [tank] = planMade(['tank']).points;
    expect(tank?.role === 'tank' && [lineEndHeight(tank, 'from'), lineEndHeight(tank, 'to')]).toEqual([0.1, 1.2]);
  });
});

describe('a proposed line in words', () => {
  test('has its length, and what it lifts or how deep it lies', () => {
    expect(proposedWords({ length: 123.4, governingLift: 20, cut: null }, 'metric')).toBe(
      '123.4\u202fm along the ground, highest lift on the way 20.00\u202fm',
    );
    // 0.3048 m to the foot.
    expect(proposedWords({ length: 304.8, governingLift: null, cut: { below: 0.3048, above: 0 } }, 'us')).toBe(
      '1,000\u202fft along the ground, at most 1.0\u202fft deep to keep falling',
    );
  });

  test('says where and how high the ground stands when nothing falls', () => {
    const sentence = noProposalSentence({ kind: 'blocked', at: { lon: -40, lat: 38 }, excess: 1.25 }, 'metric');
    expect(sentence).toContain('38.00000° N, 40.00000° W');
    expect(sentence).toContain('1.25\u202fm too high');
  });
});
