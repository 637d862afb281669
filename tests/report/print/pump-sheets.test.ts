import { describe, expect, it } from 'vitest';
import { pumpFacts } from '../../../src/diagnosis/pump-facts.ts';
import { PRESSURE_CAUTION } from '../../../src/diagnosis/words/note-words.ts';
import { htmlText } from '../../../src/report/print/html-text.ts';
import { pumpSheets } from '../../../src/report/upkeep/pump-sheets.ts';
import { madePlan } from '../../diagnosis/made-plan.ts';
import { all, sourceOf, wordsOf } from './print-made.ts';

const { plan, ground } = madePlan();
const HOSTILE = '<script>alert("x")</script>';

function sheetOf(shown = plan, units: 'metric' | 'us' = 'metric') {
  const faults = [
    { code: 'seat-leak', name: 'The waste valve leaks at its seat', chance: '80 %', remedy: 'Clean it.' },
  ];
  return pumpSheets(
    { ...sourceOf(shown), units },
    { facts: pumpFacts(shown, ground), faults, next: 'Read the gauge.', caution: PRESSURE_CAUTION },
  );
}

describe('the sheets for a pump at work', () => {
  it('are five, and say how not to be hurt', () => {
    const heads = all(sheetOf(), ({ tag }) => tag === 'h2').map(wordsOf);
    expect(heads).toEqual(
      expect.arrayContaining([
        'Start-up',
        'Record',
        'Tuning card',
        'Upkeep',
        'Drain and frost list',
        'When something is wrong',
      ]),
    );
    expect(wordsOf(sheetOf())).toContain(PRESSURE_CAUTION);
  });

  it('give a row of settings for every month and a place to drain for every sag', () => {
    const rows = (kind: string) =>
      all(sheetOf(), ({ tag, attributes }) => tag === 'table' && attributes.class === kind).flatMap((table) =>
        all(table, ({ tag, attributes }) => tag === 'tr' && attributes['data-id'] !== undefined),
      );
    expect(rows('tuning')).toHaveLength(12);
    expect(rows('drains')).toHaveLength(1);
    // No record was kept: five empty lines to be filled in by hand.
    expect(rows('records')).toHaveLength(5);
  });

  it('speak in the units asked for, and of a fault that was found', () => {
    expect(wordsOf(sheetOf(plan, 'us'))).toMatch(/gal\/min/);
    expect(wordsOf(sheetOf(plan, 'us'))).not.toMatch(/L\/min/);
    expect(wordsOf(sheetOf())).toContain('The waste valve leaks at its seat: 80 %');
  });

  it('write names as text and hold no number that is none', () => {
    const named = { ...plan, name: HOSTILE, routes: plan.routes.map((route) => ({ ...route, name: HOSTILE })) };
    const html = htmlText(sheetOf(named));
    expect(html).not.toContain('<script>');
    expect(html).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('say that there is nothing to tune by without a reading of the source', () => {
    expect(wordsOf(sheetOf({ ...plan, yieldReadings: [] }))).toContain('nothing to tune by');
  });
});
