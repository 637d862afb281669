import { describe, expect, test } from 'vitest';
import type { JsonObject } from '../../src/plan/file/json-text.ts';
import { type Migration, migrate } from '../../src/plan/file/migrate.ts';

const file = (version: number): JsonObject => ({
  type: 'FeatureCollection',
  rillwright: { version, a: 1 },
  features: [],
});

/** Made-up versions: from 1 to 2 `a` is renamed, from 2 to 3 it is doubled. */
const steps: ReadonlyMap<number, Migration> = new Map([
  [1, ({ rillwright, ...rest }) => ({ ...rest, rillwright: { b: (rillwright as JsonObject).a ?? 0 } })],
  [2, ({ rillwright, ...rest }) => ({ ...rest, rillwright: { b: Number((rillwright as JsonObject).b) * 2 } })],
]);

describe('bringing an older plan file up', () => {
  test('a file takes every step from its version to the present one', () => {
    expect(migrate(file(1), { present: 3, steps })).toEqual({
      ok: true,
      value: { type: 'FeatureCollection', rillwright: { version: 3, b: 2 }, features: [] },
    });
  });

  test('a file of the present version is left alone', () => {
    const present = file(3);
    const result = migrate(present, { present: 3, steps });
    expect(result.ok && result.value).toBe(present);
  });

  test('a newer file is refused by its number', () => {
    expect(migrate(file(4), { present: 3, steps })).toEqual({
      ok: false,
      problems: [
        {
          code: 'newer-version',
          path: 'rillwright.version',
          found: '4',
          expected: 'at most 3: a newer program made this plan',
        },
      ],
    });
  });

  test('a step that is missing is a fault of the program, not of the file', () => {
    expect(() => migrate(file(1), { present: 3, steps: new Map() })).toThrow('migration from version 1');
  });

  test.each([null, 3, 'text', [], [{}], { type: 'FeatureCollection' }, { type: 'FeatureCollection', rillwright: [] }])(
    '%j is no plan',
    (value) => {
      const result = migrate(value);
      expect(result.ok ? [] : result.problems.map(({ code }) => code)).toEqual(['not-a-plan']);
    },
  );
});
