import proj4 from 'proj4';
import { describe, expect, test } from 'vitest';
import { ReliefSource } from '../../src/relief/levels/relief-source.ts';
import { areaContours } from '../../src/relief/tiles/area-contours.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { memoryGrid } from './memory-grid.ts';
import { projection, UTM_32N } from './projections.ts';

const AFFINE = { a: 1, b: 0, c: 652000, d: 0, e: -1, f: 5207600 };
const toGrid = proj4('+proj=utm +zone=32 +datum=WGS84 +units=m');
const CHARACTER = { low: 300, high: 480, steep: 0.2 };

/** A plane that rises 0.2 m with every metre east of the grid's edge, from 300 m. */
const plane = memoryGrid({
  columns: 900,
  rows: 700,
  affine: AFFINE,
  epsg: 32632,
  height: (column) => 300.1 + 0.2 * column,
});
const source = new ReliefSource([placedGrid(plane, projection(UTM_32N))]);
const heightAt = (lon: number, lat: number) => 300 + 0.2 * ((toGrid.forward([lon, lat])[0] ?? Number.NaN) - 652000);

const [west, north] = toGrid.inverse([652300, 5207400]);
const [east, south] = toGrid.inverse([652700, 5207100]);
const bounds = { west, south, east, north };

describe('contours of an area on paper', () => {
  test('lie at their heights, and cross the area from side to side', async () => {
    const found = await areaContours(source, CHARACTER, { bounds, unit: 'metre', finest: 0.1 });
    for (const { height, line } of found) {
      for (const { lon, lat } of line) expect(heightAt(lon, lat)).toBeCloseTo(height, 1);
    }
    const heights = [...new Set(found.map(({ height }) => height))].filter((height) => height > 362 && height < 438);
    const steps = heights.toSorted((a, b) => a - b).map((height, at, all) => height - (all[at - 1] ?? height));
    expect(new Set(steps.slice(1).map((step) => step.toFixed(6))).size).toBe(1);
    expect(heights.length).toBeGreaterThan(6);
    expect(heights.length).toBeLessThan(45);
    for (const height of heights) {
      const lats = found.filter((each) => each.height === height).flatMap(({ line }) => line.map(({ lat }) => lat));
      expect(Math.max(...lats)).toBeGreaterThan(north);
      expect(Math.min(...lats)).toBeLessThan(south);
    }
    expect(found.some(({ index }) => index)).toBe(true);
  });

  test('stand at round feet when feet are shown', async () => {
    const found = await areaContours(source, CHARACTER, { bounds, unit: 'foot', finest: 0.1 });
    for (const { height } of found) expect((height / 0.3048) % 5).toBeCloseTo(0, 6);
  });

  test('are none where there is no ground', async () => {
    const away = { west: west + 1, south: south + 1, east: east + 1, north: north + 1 };
    expect(await areaContours(source, CHARACTER, { bounds: away, unit: 'metre', finest: 0.1 })).toEqual([]);
  });
});
