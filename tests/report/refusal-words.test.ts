import { describe, expect, test } from 'vitest';
import { addressRefusal, refusalSentence } from '../../src/report/words/refusal-words.ts';

const problem = (code: string, found = 'x', path = 'dem.tif') => ({ code, path, found, expected: 'y' });

describe('why a file at an address cannot be used', () => {
  test.each([
    ['address-no-ranges', 'sends only whole files'],
    ['address-not-shared', 'does not let other pages read its files'],
    ['address-size', 'does not show how large the file is'],
    ['address-changed', 'replaced by another version'],
    ['address-silent', 'Nobody answered for dem.tif'],
  ])('%s says what is wrong and names the file', (code, words) => {
    expect(refusalSentence(problem(code))).toContain(words);
    expect(refusalSentence(problem(code))).toContain('dem.tif');
  });

  test.each([
    ['status 404', 'There is no dem.tif'],
    ['status 403', 'sign-in or a key'],
    ['status 416', 'empty'],
    ['status 503', 'try again later'],
  ])('%s is told in words', (status, words) => {
    expect(refusalSentence(problem('address-status', status))).toContain(words);
  });

  test('is one sentence, or two where the second says why', () => {
    for (const code of ['address', 'address-of-disk', 'address-in-the-clear', 'address-credentials', 'address-short'])
      expect(refusalSentence(problem(code))).toMatch(/^[^.]*(?:\.[a-z][^.]*)*\.$/);
  });

  test('a page in place of a file is said to be one', () => {
    expect(addressRefusal(problem('not-a-tiff', '3c 21 64 6f'))).toContain('a page instead of the file');
    expect(refusalSentence(problem('not-a-tiff', '3c 21 64 6f'))).toBe('dem.tif: found 3c 21 64 6f; expected y.');
  });
});
