import { expect, test } from 'vitest';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { describe as shown } from '../../src/plan/model/path.ts';
import { damagedPlans } from './hostile-plans.ts';
import { problemsOf, sampleWith } from './plan-as-json.ts';

test('markup in a name is a name: it is carried as it stands', () => {
  const name = '<img src=x onerror=alert(1)> & "Sons" \u2066';
  const read = readPlan(sampleWith(['features', 3, 'properties', 'name'], name));
  expect(read.ok && read.value.points[3]?.name).toBe(name);
});

test.each(['constructor', 'toString', '__defineGetter__', 'hasOwnProperty', 'length'])(
  'a key named %s is only an unknown key, and a reference of that name only unknown',
  (key) => {
    const extra = problemsOf(sampleWith(['rillwright', key], {}));
    expect(extra.map(({ code }) => code)).toEqual(['unknown-key']);
    const id = key.toLowerCase().replaceAll('_', '-').replace(/^-+/, '');
    expect(problemsOf(sampleWith(['features', 6, 'properties', 'pipe'], id)).map(({ code }) => code)).toEqual([
      'unknown-reference',
    ]);
    expect(problemsOf(sampleWith(['rillwright', 'pipes', 0, 'row'], id)).map(({ code }) => code)).toEqual([
      'unknown-row',
    ]);
  },
);

test('a prototype cannot be set through a plan', () => {
  const text = sampleWith(['rillwright', 'name'], 'PLACE').replace('"PLACE"', '{"__proto__": {"polluted": true}}');
  expect(problemsOf(text).map(({ code }) => code)).toEqual(['unknown-key']);
  expect(Reflect.get({}, 'polluted')).toBeUndefined();
});

test('a million vertices, a million features, and a list nested a million deep are refused', () => {
  const vertices = `[${'[0,0],'.repeat(1_000_000)}[0,0]]`;
  const asVertices = sampleWith(['features', 5, 'geometry', 'coordinates'], 'PLACE').replace('"PLACE"', vertices);
  expect(problemsOf(asVertices).map(({ code }) => code)).toEqual(['too-many']);
  const asFeatures = sampleWith(['features'], 'PLACE').replace('"PLACE"', `[${'{},'.repeat(1_000_000)}{}]`);
  expect(problemsOf(asFeatures).map(({ code }) => code)).toEqual(['too-many']);
  const asName = sampleWith(['rillwright', 'name'], 'PLACE').replace('"PLACE"', '['.repeat(1_000_000));
  expect(problemsOf(asName).map(({ code }) => code)).toEqual(['too-deep']);
});

test('a route of ten thousand broken vertices gives fifty problems', () => {
  const broken = Array.from({ length: 10_000 }, () => ['x', null]);
  expect(problemsOf(sampleWith(['features', 5, 'geometry', 'coordinates'], broken))).toHaveLength(50);
});

test('a number beyond doubles is refused where it stands, and a huge one is out of range', () => {
  const beyond = sampleWith(['rillwright', 'confidence'], 'PLACE').replace('"PLACE"', '1e400');
  expect(problemsOf(beyond)[0]).toMatchObject({ code: 'out-of-range', found: '1e400' });
  expect(problemsOf(sampleWith(['rillwright', 'confidence'], 1e300))[0]).toMatchObject({ code: 'out-of-range' });
});

test('what is shown of a value found is short, whatever it was', () => {
  for (const value of ['x'.repeat(1_000_000), Array(1_000_000).fill(0), { a: 1 }, 1e300, null, true, undefined]) {
    expect(shown(value).length).toBeLessThanOrEqual(64);
  }
  const long = problemsOf(sampleWith(['rillwright', 'k'.repeat(100_000)], 1));
  expect(long[0]?.path.length).toBeLessThan(120);
});

/** Numbers of a plan that are none. */
function wrongNumbers(value: unknown): unknown[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(wrongNumbers) : [];
}

test('a damaged plan file is refused with short problems that say where, or is a plan that is saved and read again', () => {
  const corpus = damagedPlans(20_260_911);
  expect(corpus.length).toBeGreaterThanOrEqual(200);
  const refused = corpus.filter(({ what, text }) => {
    const read = readPlan(text);
    if (read.ok) {
      expect(wrongNumbers(read.value), what).toEqual([]);
      expect(readPlan(writePlan(read.value)), what).toEqual(read);
      return false;
    }
    expect(read.problems.length, what).toBeGreaterThan(0);
    for (const { path, found } of read.problems) expect(path.length + found.length, what).toBeLessThan(300);
    return true;
  });
  // A name or a note may say anything, so not all of them are refused.
  expect(refused.length).toBeGreaterThan(corpus.length * 0.7);
  expect(refused.length).toBeLessThan(corpus.length);
});
