import { expect, test } from 'vitest';
import { askedWords, epsgAnswer } from '../../src/report/question-words.ts';

test('an EPSG code is taken with or without the name of the registry, and nothing else is', () => {
  expect(epsgAnswer('EPSG:27700')).toEqual({ crs: 27700 });
  expect(epsgAnswer(' 2193 ')).toEqual({ crs: 2193 });
  expect(epsgAnswer('epsg: 32633')).toEqual({ crs: 32633 });
  for (const text of ['', 'null', '12', 'UTM 33', '27700.5', 'EPSG:']) expect(epsgAnswer(text)).toBeNull();
});

test('a file without a coordinate reference system asks for something to be typed', () => {
  const words = askedWords({ kind: 'question', about: 'crs', file: 'ground.asc', corners: [500, 600, 700, 800] });
  expect(words.typed).toBe('crs');
  expect(words.sentence).toContain('ground.asc');
});
