import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { projectionOf } from '../../src/geodesy/projection.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import { sourceOf } from './fixture-files.ts';
import { makeDem } from './tiff-maker.ts';

interface Recorded {
  readonly keys: readonly number[];
  readonly doubles: readonly number[];
  readonly ascii: string;
  readonly x: number;
  readonly y: number;
  readonly lon: number;
  readonly lat: number;
}

const recorded: { projections: Readonly<Record<string, Recorded>> } = JSON.parse(
  readFileSync(new URL('./fixtures/user-projections.json', import.meta.url), 'utf8'),
);

/** Metres of a degree of latitude, near enough to state a tolerance. */
const METRES = 111_195;

// Keys as GDAL 3.6.2 writes them and places as PROJ 9.1.1 computes them (fixtures/make-projections.py).
describe('a projection written out in the keys of a file puts a point where PROJ puts it', () => {
  const rows = Object.entries(recorded.projections);
  test('there are projections', () => expect(rows.length).toBeGreaterThan(10));

  test.each(rows)('%s', async (_, { keys, doubles, ascii, x, y, lon, lat }) => {
    const bytes = makeDem([
      { tag: 34735, type: 3, values: keys },
      { tag: 34736, type: 12, values: doubles },
      { tag: 34737, type: 2, values: ascii },
      { tag: 33922, type: 12, values: [0, 0, 0, x, y, 0] },
    ]);
    const outcome = await openGeoTiff(sourceOf('made.tif', bytes), { verticalUnit: 'metre' });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    expect(outcome.value.crs.kind).toBe('proj');
    const projection = await projectionOf(outcome.value.crs);
    if (!projection.ok) throw new Error(JSON.stringify(projection));
    const place = projection.value.inverse({ x, y });
    if (place === null) throw new Error('no place');
    const off = Math.hypot((place.lon - lon) * Math.cos((lat * Math.PI) / 180), place.lat - lat) * METRES;
    expect(off).toBeLessThan(0.001);
  });
});
