import { describe, expect, test } from 'vitest';
import { projectionOf } from '../../src/geodesy/projection.ts';
import type { CrsReference } from '../../src/geodesy/wgs84.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import { sourceOf } from './fixture-files.ts';
import { type MadeEntry, makeDem } from './tiff-maker.ts';

// Coordinates: cs2cs, PROJ 9.1.1, database EPSG v10.076. Codes of conversions and datums: EPSG registry.

const keys = (...entries: readonly (readonly [number, number, number, number])[]): MadeEntry => ({
  tag: 34735,
  type: 3,
  values: [1, 1, 0, entries.length, ...entries.flat()],
});
const tied = (x: number, y: number): MadeEntry => ({ tag: 33922, type: 12, values: [0, 0, 0, x, y, 0] });

async function projection(reference: CrsReference) {
  const found = await projectionOf(reference);
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.value;
}

async function crsOf(changes: readonly MadeEntry[]): Promise<CrsReference> {
  const outcome = await openGeoTiff(sourceOf('made.tif', makeDem(changes)), { verticalUnit: 'metre' });
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value.crs;
}

describe('coordinate reference systems of elevation files', () => {
  test('EPSG:5514 lay some nine metres off: it agrees with PROJ in Bohemia', async () => {
    const place = (await projection({ kind: 'epsg', code: 5514 })).forward({ lon: 14.5, lat: 50 });
    expect(place?.x).toBeCloseTo(-738542.8647, 1);
    expect(place?.y).toBeCloseTo(-1053416.5503, 1);
  });

  test.each([
    ['west and south, as the registry has it', tied(80298.1479, 2843841.9764)],
    ['east and north, as many files turn it', tied(-80298.1479, -2843841.9764)],
  ])('a South African Lo grid was refused: Lo29 is read with coordinates that run %s', async (_, tie) => {
    const crs = await crsOf([keys([1024, 0, 1, 1], [3072, 0, 1, 2053]), tie]);
    const [x = 0, y = 0] = (tie.values as readonly number[]).slice(3);
    const there = (await projection(crs)).inverse({ x, y });
    expect(there?.lon).toBeCloseTo(28.2, 7);
    expect(there?.lat).toBeCloseTo(-25.7, 7);
  });

  test('a UTM zone by its conversion alone was read on four datums: now on any of the registry, such as ED50', async () => {
    // 45° N 9° E in EPSG:23032, ED50 / UTM zone 32N.
    const crs = await crsOf([keys([1024, 0, 1, 1], [2048, 0, 1, 4230], [3074, 0, 1, 16032])]);
    const own = await projection({ kind: 'epsg', code: 23032 });
    const ours = await projection(crs);
    const place = { lon: 9.3, lat: 45.2 };
    expect(ours.forward(place)?.x).toBeCloseTo(own.forward(place)?.x ?? 0, 3);
    expect(ours.forward(place)?.y).toBeCloseTo(own.forward(place)?.y ?? 0, 3);
  });

  test('an unknown datum on the ellipsoid of GRS 80 was refused: it is taken for WGS 84, with a note that leaves the metres open', async () => {
    const crs = await crsOf([keys([1024, 0, 1, 1], [2048, 0, 1, 4019], [3074, 0, 1, 16030])]);
    const ours = await projection(crs);
    expect(ours.shift.accuracy).toBeNull();
    const wgs84 = await projection({ kind: 'epsg', code: 32630 });
    const place = { lon: -3.1, lat: 38 };
    expect(ours.forward(place)?.x).toBeCloseTo(wgs84.forward(place)?.x ?? 0, 1);
    expect(ours.forward(place)?.y).toBeCloseTo(wgs84.forward(place)?.y ?? 0, 1);
  });
});
