import { describe, expect, test } from 'vitest';
import { type Corners, crsCandidate } from '../../src/terrain/georeference/crs-candidate.ts';

/** Corners of a square of a kilometre around a middle. */
const around = (x: number, y: number, half = 500): Corners => [x - half, y - half, x + half, y + half];

describe('the coordinates of a file, taken for those of a CRS', () => {
  // echo "X Y" | cs2cs -f %.8f EPSG:CODE EPSG:4326, PROJ 9.1.1.
  test.each([
    [32624, 412500, 4206450, -39.99662149, 38.00149991],
    [2154, 651000, 6862000, 2.33218368, 48.85617286],
    [2056, 2650000, 1200000, 8.09542317, 46.94920438],
  ])('EPSG:%i: the middle %d, %d lies where PROJ has it', async (code, x, y, lon, lat) => {
    const found = await crsCandidate(code, around(x, y));
    expect(found).toMatchObject({ kind: 'place', inArea: true });
    if (found.kind !== 'place') return;
    expect(found.middle.lon).toBeCloseTo(lon, 5);
    expect(found.middle.lat).toBeCloseTo(lat, 5);
  });

  test('far from where the CRS is used are said to be so', async () => {
    // 25.32084351 0.31417699 by cs2cs, in the Sahara; Lambert-93 is for France.
    const found = await crsCandidate(2154, around(412500, 4206450));
    expect(found).toMatchObject({ kind: 'place', name: 'RGF93 v1 / Lambert-93', inArea: false });
  });

  test('are nowhere where they cannot be degrees', async () => {
    expect(await crsCandidate(4326, around(412500, 4206450))).toEqual({ kind: 'nowhere', name: 'WGS 84' });
  });

  test('that cross the antimeridian lie in an area that does so too', async () => {
    // EPSG:3832, a Mercator around 150° E, is used from 98.69° E to 68° W: EPSG Geodetic Parameter Dataset v10.076.
    const degree = (Math.PI / 180) * 6_378_137;
    expect(await crsCandidate(3832, around(60 * degree, 0))).toMatchObject({ kind: 'place', inArea: true });
    expect(await crsCandidate(3832, around(-120 * degree, 0))).toMatchObject({ kind: 'place', inArea: false });
  });

  test.each([[99_999], [123_456]])('EPSG:%i is unknown', async (code) => {
    expect(await crsCandidate(code, around(0, 0))).toMatchObject({
      kind: 'unknown',
      problem: { code: 'crs-unknown', found: `EPSG:${code}` },
    });
  });
});
