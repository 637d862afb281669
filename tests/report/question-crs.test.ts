import { expect, test } from 'vitest';
import {
  askedTogether,
  askedWords,
  crsCandidateWords,
  EPSG_PATTERN,
  epsgAnswer,
  systemsAt,
} from '../../src/report/words/question-words.ts';

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

test('a UTM zone is read as it is said, on WGS 84', () => {
  // EPSG Geodetic Parameter Dataset: 32617 is WGS 84 / UTM zone 17N, 32759 is WGS 84 / UTM zone 59S.
  for (const text of ['UTM 17N', 'utm17n', 'UTM zone 17 N', 'WGS 84 / UTM zone 17N'.replace(' /', ',')]) {
    expect(epsgAnswer(text)).toEqual({ crs: 32617 });
    expect(new RegExp(`^(?:${EPSG_PATTERN})$`, 'v').test(text), text).toBe(true);
  }
  expect(epsgAnswer('UTM 59S')).toEqual({ crs: 32759 });
  for (const text of ['UTM 0N', 'UTM 61N', 'UTM 17', '17N']) expect(epsgAnswer(text)).toBeNull();
});

test('the zone of the place that is open is offered first, then degrees and its neighbours', () => {
  // 39.997° W lies in zone 24, from 42° W to 36° W; 178° E in zone 60, whose neighbour across 180° is zone 1.
  expect(systemsAt({ lon: -39.997, lat: 38 }).map(({ code }) => code)).toEqual([32624, 4326, 32623, 32625]);
  expect(systemsAt({ lon: 178, lat: -40 }).map(({ code }) => code)).toEqual([32760, 4326, 32759, 32701]);
});
