import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checksum } from '../../../src/app/autosave/checksum.ts';
import { lateWork, withLate } from '../../../src/app/autosave/late-work.ts';
import { copyText, readCopy } from '../../../src/app/autosave/second-copy.ts';
import { changeBetween, changed, sizeOfChange } from '../../../src/app/autosave/text-change.ts';
import { workMade } from './work-made.ts';

describe('the checksum of a kept text', () => {
  // The check value of "123456789" is the one that the catalogues of CRC algorithms give for CRC-32 (ISO-HDLC); of an empty text it
  // is 0 by definition.
  it('is the CRC-32 of the standard', () => {
    expect(checksum('123456789')).toBe('cbf43926');
    expect(checksum('')).toBe('00000000');
    // From memory: the pangram that is commonly given with CRC-32.
    expect(checksum('The quick brown fox jumps over the lazy dog')).toBe('414fa339');
  });
});

const lines = fc
  .array(fc.constantFrom('a', 'b', 'c', '', 'a longer line'), { maxLength: 30 })
  .map((all) => all.join('\n'));

describe('what has changed between two texts', () => {
  it('leads from the one to the other, whatever they are', () => {
    fc.assert(
      fc.property(lines, lines, (before, after) => {
        expect(changed(before, changeBetween(before, after))).toBe(after);
      }),
      { numRuns: 2000, seed: 3 },
    );
  });

  it('is short where a point and the ends of its lines moved', () => {
    const rows = Array.from({ length: 5000 }, (_, at) => `row ${at} of a large plan`);
    const moved = rows.with(10, 'the point').with(4000, 'the end of its line');
    const change = changeBetween(rows.join('\n'), moved.join('\n'));
    expect(change).toHaveLength(2);
    expect(sizeOfChange(change)).toBeLessThan(200);
  });

  it('does not fit another text', () => {
    expect(changed('a', [[3, 1, ['b']]])).toBeNull();
  });
});

const large = (name: string) =>
  Array.from({ length: 20_000 }, (_, at) => (at === 777 ? name : `"vertex ${at}": [-40.123456, 38.123456],`)).join(
    '\n',
  );

describe('an edit of a large plan', () => {
  const body = workMade('a', large('before'));
  const now = workMade('a', large('after'), { at: 5 });

  it('of nearly a megabyte writes less than a kilobyte, and is found whole', () => {
    const late = lateWork(body, now);
    expect(body.plans[0]?.text.length).toBeGreaterThan(800_000);
    expect(JSON.stringify(late).length).toBeLessThan(1000);
    expect(withLate(body, structuredClone(late))).toEqual(now);
  });

  it('is written whole where most of it changed, or another sheet came', () => {
    expect(lateWork(body, workMade('a', large('x').replaceAll('vertex', 'corner')))).toBeNull();
    expect(lateWork(body, { ...now, plans: [...now.plans, ...now.plans] })).toBeNull();
    expect(lateWork(workMade('a', 'small'), workMade('a', 'small too'))).toBeNull();
  });

  it('leaves the body where it is torn, or is of another body', () => {
    const late = lateWork(body, now);
    expect(withLate(workMade('a', large('another')), late)).toEqual(workMade('a', large('another')));
    const torn = JSON.parse(JSON.stringify(late).replace('after', 'afte0'));
    expect(withLate(body, torn)).toBe(body);
    for (const found of [undefined, null, 4, {}, { version: 1, plans: [] }]) expect(withLate(body, found)).toBe(body);
  });
});

describe('a second copy', () => {
  const work = workMade('a', 'a plan\nof two lines', { at: 3 });

  it('is read as it was written', () => {
    expect(readCopy(copyText(work))).toEqual({ kind: 'whole', work });
  });

  it('is torn when it is cut anywhere, lengthened, or filled with zeros', () => {
    const text = copyText(work);
    for (let length = 0; length < text.length; length++) {
      expect(readCopy(text.slice(0, length)).kind).toBe('torn');
      expect(readCopy(text.slice(0, length) + '\0'.repeat(text.length - length)).kind).toBe('torn');
    }
    expect(readCopy(`${text}\0`).kind).toBe('torn');
    expect(readCopy(text + text).kind).toBe('torn');
  });

  it('of a later version is known as one', () => {
    const body = JSON.stringify({ version: 2, pages: [] });
    expect(readCopy(`rillwright kept work ${checksum(body)}\n${body}`)).toEqual({ kind: 'later' });
  });
});
