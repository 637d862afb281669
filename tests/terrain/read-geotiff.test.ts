import { describe, expect, test } from 'vitest';
import { openGeoTiff } from '../../src/terrain/open-geotiff.ts';
import type { OpenedGrid } from '../../src/terrain/opened-grid.ts';
import { METRES_PER } from '../../src/terrain/vertical-unit.ts';
import { type DecodedFixture, decoded, fixtureSource } from './fixture-files.ts';

// Every height below is what GDAL 3.6.2 decodes from the same file (fixtures/make-fixtures.py records it).

async function openFixture(name: string, fixture: DecodedFixture): Promise<OpenedGrid> {
  const outcome = await openGeoTiff(fixtureSource(name), { ...fixture.answers, noData: undefined as never });
  if (outcome.kind !== 'opened') throw new Error(`${name}: ${JSON.stringify(outcome)}`);
  return outcome.value;
}

function expectedMetres(raw: number, fixture: DecodedFixture, grid: OpenedGrid): number {
  return raw * (fixture.scale * METRES_PER[grid.facts.verticalUnit]) + fixture.offset * METRES_PER[grid.facts.verticalUnit];
}

describe('every height of a file is the one that GDAL decodes from it', () => {
  const files = Object.entries(decoded.files);
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
