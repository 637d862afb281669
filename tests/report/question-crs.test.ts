import { expect, test } from 'vitest';
import { askedTogether, askedWords, crsCandidateWords, epsgAnswer } from '../../src/report/words/question-words.ts';

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

test('tiles that all leave out their coordinate reference system are one question, other questions stay apart', () => {
  const crs = (file: string) => ({ kind: 'question', about: 'crs', file, corners: [500, 600, 700, 800] }) as const;
  const rows = { kind: 'question', about: 'rowsRun', file: 'b.tif' } as const;
  const asked = askedTogether([crs('a.asc'), rows, crs('c.asc')]);
  expect(asked.map(({ files }) => files)).toEqual([['a.asc', 'c.asc'], ['b.tif']]);
  expect(asked[0]?.sentence).toContain('2 files (a.asc, c.asc)');
  expect(asked[0]?.corners).toHaveLength(2);
  expect(askedTogether([crs('a.asc')])[0]?.sentence).toBe(askedWords(crs('a.asc')).sentence);
  expect(askedTogether([rows])).toMatchObject([{ files: ['b.tif'], corners: [] }]);
});

test('a code is answered by what it makes of the file', () => {
  const middle = { lon: -39.99662, lat: 38.0015 };
  const place = { kind: 'place', name: 'WGS 84 / UTM zone 24N', middle } as const;
  expect(crsCandidateWords({ ...place, inArea: true })).toBe(
    'WGS 84 / UTM zone 24N: the middle of the file lies at 38.00150° N, 39.99662° W.',
  );
  expect(crsCandidateWords({ ...place, inArea: false })).toContain('outside the area');
  expect(crsCandidateWords({ kind: 'nowhere', name: 'WGS 84' })).toContain('no place in it');
  const problem = { code: 'crs-unknown', path: 'crs', found: 'EPSG:99999', expected: 'a code of the EPSG registry' };
  expect(crsCandidateWords({ kind: 'unknown', problem })).toBe(
    'Found EPSG:99999; expected a code of the EPSG registry.',
  );
});
