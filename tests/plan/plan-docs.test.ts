import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { planJsonSchema } from '../../src/plan/file/plan-json-schema.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { sampleWith } from './plan-as-json.ts';
import { samplePlan } from './sample-plan.ts';

const guide = readFileSync(new URL('../../docs/plan-file.md', import.meta.url), 'utf8');
const schemaText = readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8');
const example = /```json\n([\s\S]*?)```/.exec(guide)?.[1] ?? '';

describe('the guide to the plan file', () => {
  test('its example reads, and is what the program writes', () => {
    const read = readPlan(example);
    expect(read).toMatchObject({ ok: true });
    expect(read.ok && writePlan(read.value)).toBe(example);
  });

  test('it names every key of the schema and every kind of value', () => {
    const named = keysAndWords(JSON.parse(schemaText)).filter((word) => !guide.includes(word));
    expect(named).toEqual([]);
  });
});

test('the guide lists every code that reading a plan can give, and no other', () => {
  const listed = [...(guide.split('## Problems')[1]?.split('## ')[0] ?? '').matchAll(/`([a-z]+(?:-[a-z]+)+)`/g)];
  const given = sources().flatMap((text) => [
    ...text.matchAll(/(?:code: |code = .*|fail(?:ed)?\(|\[|\? )'([a-z]+(?:-[a-z]+)+)'/g),
  ]);
  const codes = (matches: readonly RegExpExecArray[]) => [...new Set(matches.map((match) => match[1]))].sort();
  expect(codes(listed)).toEqual(codes(given));
});

/** The files that find problems in a plan file, as text. */
function sources(): readonly string[] {
  const folder = new URL('../../src/plan/', import.meta.url);
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.startsWith('edits') && !name.startsWith('exchange'))
    .map((name) => readFileSync(new URL(name, folder), 'utf8'));
}

describe('the JSON Schema in docs', () => {
  test('it is what the code says (else run: node scripts/plan-schema.mjs)', () => {
    expect(JSON.parse(schemaText)).toEqual(JSON.parse(JSON.stringify(planJsonSchema())));
  });

  // Read back by zod's own reader of JSON Schema, which knows nothing of this program's schema.
  const schema = z.fromJSONSchema(JSON.parse(schemaText));

  test('it accepts what the program writes', () => {
    expect(schema.safeParse(JSON.parse(writePlan(samplePlan))).success).toBe(true);
  });

  test.each([
    [['rillwright', 'colour'], 'red'],
    [['rillwright', 'version'], 2],
    [['rillwright', 'water_temperature_C'], 61],
    [
      ['features', 3, 'geometry', 'coordinates'],
      [-30, 40, 100],
    ],
    [['features', 3, 'id'], 'Tank 1'],
    [['features', 5, 'properties', 'summits'], 'open'],
    [['bbox'], [0, 0, 1, 1]],
  ])('it refuses a file with %j set to %j', (path, value) => {
    expect(schema.safeParse(JSON.parse(sampleWith(path, value))).success).toBe(false);
  });
});

test('the written file is a FeatureCollection as RFC 7946, sections 3 and 6 to 7.1, says', () => {
  const file = JSON.parse(writePlan(samplePlan));
  expect(file.type).toBe('FeatureCollection');
  for (const feature of file.features) {
    expect(Object.keys(feature).sort()).toEqual(['geometry', 'id', 'properties', 'type']);
    expect(feature.type).toBe('Feature');
    expect(['string', 'number']).toContain(typeof feature.id);
    const positions = feature.geometry.type === 'Point' ? [feature.geometry.coordinates] : feature.geometry.coordinates;
    expect(positions.length).toBeGreaterThanOrEqual(feature.geometry.type === 'Point' ? 1 : 2);
    for (const position of positions) expect(position.map((x: unknown) => typeof x)).toEqual(['number', 'number']);
  }
  // Section 7.1: the foreign member must not be named as one of GeoJSON's own.
  for (const own of ['coordinates', 'geometries', 'geometry', 'properties']) expect(file).not.toHaveProperty(own);
});

/** Keys of the file and fixed words among its values. */
function keysAndWords(schema: unknown): readonly string[] {
  if (Array.isArray(schema)) return schema.flatMap(keysAndWords);
  if (typeof schema !== 'object' || schema === null) return [];
  const { properties, enum: words, const: word, ...rest } = schema as Record<string, unknown>;
  const keys = typeof properties === 'object' && properties !== null ? Object.entries(properties) : [];
  return [
    ...keys.flatMap(([key, value]) => [key, ...keysAndWords(value)]),
    ...(Array.isArray(words) ? words.map(String) : []),
    ...(typeof word === 'string' ? [word] : []),
    ...Object.values(rest).flatMap(keysAndWords),
  ];
}
