import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { METRES_PER } from '../../src/terrain/georeference/vertical-unit.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import type { OpenedGrid } from '../../src/terrain/open/opened-grid.ts';
import { type DecodedFixture, decoded, fixtureSource } from './fixture-files.ts';

// Every height below is what GDAL 3.6.2 decodes from the same file (fixtures/make-fixtures.py records it).

async function openFixture(name: string, fixture: DecodedFixture): Promise<OpenedGrid> {
  // The invented ground is steeper than any: whole fixtures would be asked about.
  const outcome = await openGeoTiff(fixtureSource(name), {
    verticalUnit: 'metre',
    eightBit: 'heights',
    ...fixture.answers,
  });
  if (outcome.kind !== 'opened') throw new Error(`${name}: ${JSON.stringify(outcome)}`);
  return outcome.value;
}

function expectedMetres(raw: number, fixture: DecodedFixture, grid: OpenedGrid): number {
  return (
    raw * (fixture.scale * METRES_PER[grid.facts.verticalUnit]) + fixture.offset * METRES_PER[grid.facts.verticalUnit]
  );
}

describe('every height of a file is the one that GDAL decodes from it', () => {
  const files = Object.entries(decoded.files).filter(([name]) => name !== 'lerc-big-endian');
  test('there are fixtures', () => expect(files.length).toBeGreaterThan(60));

  for (const [name, fixture] of files) {
    test(name, async () => {
      const grid = await openFixture(name, fixture);
      const { columns, rows } = decoded;
      const block = await grid.read({ column: 0, row: 0, columns, rows });
      const values = decoded.arrays[fixture.values] ?? [];
      expect(values.length).toBe(columns * rows);
      const single = fixture.gdal === 'Float32';
      for (const [i, value] of values.entries()) {
        const raw = value === null ? null : name === 'int8-strips' && value > 127 ? value - 256 : value;
        const place = `${name}, cell ${i}`;
        expect(block.known[i], place).toBe(raw === null ? 0 : 1);
        if (raw === null) continue;
        expect(block.heights[i], place).toBe(expectedMetres(single ? Math.fround(raw) : raw, fixture, grid));
      }
    });
  }
});

describe('larger rasters of several blocks decode to what GDAL decodes', () => {
  const side = decoded.side_of_large;
  test.each(Object.entries(decoded.sha256_of_float32))('%s', async (name, digest) => {
    const outcome = await openGeoTiff(fixtureSource(name));
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const block = await outcome.value.read({ column: 0, row: 0, columns: side, rows: side });
    expect(block.known.every((known) => known === 1)).toBe(true);
    const bytes = new Uint8Array(Float32Array.from(block.heights).buffer);
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(digest);
  });
});

test('LERC in a big-endian file is refused by name, since writers disagree on its byte order', async () => {
  const outcome = await openGeoTiff(fixtureSource('lerc-big-endian'));
  expect(outcome).toMatchObject({
    kind: 'refused',
    problems: [{ code: 'compression', path: 'lerc-big-endian.tif: Compression', found: 'LERC in a big-endian file' }],
  });
});

describe('cells lie where GDAL puts them', () => {
  for (const [name, fixture] of Object.entries(decoded.files)) {
    if (name === 'lerc-big-endian') continue;
    test(name, async () => {
      const { affine } = await openFixture(name, fixture);
      const [c = 0, a = 0, b = 0, f = 0, d = 0, e = 0] = fixture.geotransform;
      for (const [found, expected] of [
        [affine.a, a],
        [affine.b, b],
        [affine.c, c],
        [affine.d, d],
        [affine.e, e],
        [affine.f, f],
      ] as const) {
        expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
      }
    });
  }
});

test('an overview covers the same area with larger cells, and its heights are those that GDAL reads', async () => {
  const fixture = decoded.files.overviews;
  if (fixture === undefined) throw new Error('no such fixture');
  const grid = await openFixture('overviews', fixture);
  expect(grid.overviews.map(({ columns, rows }) => [columns, rows])).toEqual([
    [11, 10],
    [6, 5],
  ]);
  const [half] = grid.overviews;
  if (half === undefined) throw new Error('no overview');
  expect(half.affine.a * half.columns).toBeCloseTo(grid.affine.a * grid.columns, 9);
  expect(half.affine.e * half.rows).toBeCloseTo(grid.affine.e * grid.rows, 9);
  const block = await half.read({ column: 0, row: 0, columns: 11, rows: 10 });
  expect([...block.heights]).toEqual((fixture.half ?? []).map(Math.fround));
});

test('a window that reaches over the edge has unknown cells there and the same heights inside', async () => {
  const fixture = decoded.files['little-float32-lzw-p2'];
  if (fixture === undefined) throw new Error('no such fixture');
  const grid = await openFixture('little-float32-lzw-p2', fixture);
  const whole = await grid.read({ column: 0, row: 0, columns: 21, rows: 19 });
  const over = await grid.read({ column: 14, row: -3, columns: 12, rows: 30 });
  for (let row = 0; row < 30; row++) {
    for (let column = 0; column < 12; column++) {
      const inside = column + 14 < 21 && row - 3 >= 0 && row - 3 < 19;
      const at = row * 12 + column;
      const from = (row - 3) * 21 + column + 14;
      expect(over.known[at]).toBe(inside ? whole.known[from] : 0);
      expect(over.heights[at]).toBe(inside ? whole.heights[from] : 0);
    }
  }
});
