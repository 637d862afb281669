import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FINDINGS, type FindingCode } from '../../src/evaluation/findings/catalogue.ts';
import type { Judged } from '../../src/evaluation/findings/finding.ts';
import { toldOnce } from '../../src/evaluation/findings/implied-findings.ts';
import type { Finding } from '../../src/evaluation/result/evaluation.ts';
import { exactly } from '../../src/evaluation/statistics/compare.ts';
import type { Verdict } from '../../src/evaluation/statistics/estimate.ts';

const VERDICTS: readonly Verdict[] = ['holds', 'measure', 'fails'];

/** A finding that misses its limit of 1 by a share of it. */
function judgedAs(code: FindingCode, about: string, is: { readonly verdict: Verdict; readonly miss: number }): Judged {
  const { bears, quantity } = FINDINGS[code];
  const likely = 1 - is.miss;
  const finding: Finding = {
    code,
    about,
    bears,
    verdict: is.verdict,
    value: { low: likely, likely, high: likely },
    limit: 1,
    side: 'at-least',
    quantity,
    chance: 0.5,
    source: '',
    facts: {},
  };
  return { finding, output: null, spread: exactly(likely) };
}

/** Any findings of the catalogue about any of two places, with any verdicts. */
const anyFindings = fc
  .uniqueArray(
    fc.record({
      code: fc.constantFrom(...(Object.keys(FINDINGS) as FindingCode[])),
      about: fc.constantFrom('here', 'there'),
      verdict: fc.constantFrom(...VERDICTS),
      miss: fc.integer({ min: 1, max: 3 }).map((n) => n / 4),
    }),
    { selector: ({ code, about }) => `${code} ${about}`, maxLength: 74 },
  )
  .map((all) => all.map(({ code, about, ...is }) => judgedAs(code, about, is)));

const worst = (all: readonly Judged[], which: (finding: Finding) => boolean) =>
  Math.max(0, ...all.filter(({ finding }) => which(finding)).map(({ finding }) => VERDICTS.indexOf(finding.verdict)));

describe('findings told once', () => {
  test('leaving out what another tells along never makes a plan look better', () => {
    fc.assert(
      fc.property(anyFindings, (judged) => {
        const told = toldOnce(judged);
        expect(worst(told, () => true)).toBe(worst(judged, () => true));
        const decides = ({ bears }: Finding) => bears !== 'practice';
        expect(worst(told, decides)).toBe(worst(judged, decides));
      }),
      { numRuns: 2000, seed: 3 },
    );
  });

  test('what holds is never left out, and nothing is added or changed', () => {
    fc.assert(
      fc.property(anyFindings, (judged) => {
        const told = toldOnce(judged);
        expect(told.every((each) => judged.includes(each))).toBe(true);
        const holding = judged.filter(({ finding }) => finding.verdict === 'holds');
        expect(holding.every((each) => told.includes(each))).toBe(true);
      }),
      { numRuns: 500, seed: 4 },
    );
  });

  test('a column that may break is not said to siphon as well: one vent mends both', () => {
    const crest = (siphon: Verdict, breaks: Verdict) =>
      toldOnce([
        judgedAs('siphon', 'tank', { verdict: siphon, miss: 0.5 }),
        judgedAs('siphon-breaks', 'tank', { verdict: breaks, miss: 0.5 }),
      ]).map(({ finding }) => finding.code);
    expect(crest('fails', 'fails')).toEqual(['siphon-breaks']);
    expect(crest('fails', 'measure')).toEqual(['siphon-breaks']);
    expect(crest('measure', 'measure')).toEqual(['siphon-breaks']);
  });

  test('of two rules of length that are both missed the one missed by more is told', () => {
    const told = toldOnce([
      judgedAs('drive-length-bore-most', 'drive', { verdict: 'fails', miss: 0.25 }),
      judgedAs('drive-length-fall-most', 'drive', { verdict: 'fails', miss: 0.75 }),
    ]);
    expect(told.map(({ finding }) => finding.code)).toEqual(['drive-length-fall-most']);
  });

  test('a line to another tank is not excused by what is wrong with this one', () => {
    const told = toldOnce([
      judgedAs('lift-out-of-reach', 'here', { verdict: 'fails', miss: 0.5 }),
      judgedAs('need-unmet', 'here', { verdict: 'fails', miss: 0.5 }),
      judgedAs('need-unmet', 'there', { verdict: 'fails', miss: 0.5 }),
    ]);
    expect(told.map(({ finding }) => `${finding.code} ${finding.about}`)).toEqual([
      'lift-out-of-reach here',
      'need-unmet there',
    ]);
  });
});
