import { describe, expect, it } from 'vitest';
import { csvText } from '../../src/report/tables/report-table.ts';

describe('a table for a spreadsheet', () => {
  // OWASP, CSV Injection: the signs with which spreadsheets begin a formula, also in full width, after a blank, and after a tab or a
  // return, which they drop.
  it.each([
    '=1+1',
    '+1+1',
    '-1+1',
    '@SUM(A1)',
    '\t=1+1',
    '\r=1+1',
    ' =1+1',
    '\u00a0=1+1',
    '＝1+1',
    '＋1',
    '－1+1',
    '＠x',
  ])('runs nothing of %j', (name) => {
    const [cell = ''] = csvText([[name]]).split('\r\n');
    expect(cell.replace(/^"/, '').startsWith("'")).toBe(true);
  });

  it('cannot be left by a quote, a comma or a line end', () => {
    // RFC 4180, 2.5 to 2.7.
    expect(csvText([['a","=1+1', 'b\n=2', 3]])).toBe('"a"",""=1+1","b\n=2",3\r\n');
  });

  it('leaves numbers and plain names as they are', () => {
    expect(csvText([[-3, '-3', '+4.5', 'Tank = 1', null]])).toBe('-3,-3,+4.5,Tank = 1,\r\n');
  });
});
