import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { GLOSSARY, glossaryDocument } from '../../src/report/glossary/glossary.ts';

test('the glossary says what the page says', () => {
  expect(readFileSync('docs/glossary.md', 'utf8')).toBe(glossaryDocument());
});

test('no word is explained twice', () => {
  const terms = GLOSSARY.flatMap(({ entries }) => entries.flatMap(({ term }) => term.split(', ')));
  expect(terms.toSorted()).toEqual([...new Set(terms)].toSorted());
});
