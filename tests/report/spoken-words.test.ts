import { describe, expect, test } from 'vitest';
import type { TankResult } from '../../src/evaluation/result/evaluation.ts';
import { barName, tankSentence } from '../../src/report/words/spoken-words.ts';

/** 1 270 litres a day likely, in m³. */
const day = { low: 1.17, likely: 1.27, high: 1.38 };
const tank = { verdict: 'measure', line: { deliveryPerDay: day } } as unknown as TankResult;

describe('a tank for the ear', () => {
  test('is one sentence with verdict, amount and range', () => {
    expect(tankSentence('Spur tank', tank, 'metric')).toBe(
      'Spur tank, to be measured: 1270 litres a day, between 1170 and 1380.',
    );
  });

  // 1 US gallon is 3.785411784 L. Source: NIST Handbook 44, appendix C.
  test('is said in gallons to those who read them', () => {
    expect(tankSentence('Spur tank', tank, 'us')).toMatch(
      /^Spur tank, to be measured: 335 gallons a day, between 309 and 365\.$/,
    );
  });

  test('says so without a delivery line, and without an amount', () => {
    expect(tankSentence('Spur tank', { ...tank, verdict: null }, 'metric')).toBe('Spur tank: no delivery line yet.');
    expect(tankSentence('Spur tank', { ...tank, verdict: 'fails', line: null }, 'metric')).toBe(
      'Spur tank, too little arrives.',
    );
  });

  test('has a bar with a name of its own', () => {
    expect(barName(day, 1.29, 'metric')).toBe(
      'Bar from 1170 litres a day to 1380 litres a day; needed are 1290 litres a day',
    );
    expect(barName(day, null, 'us')).not.toMatch(/needed/);
  });
});
