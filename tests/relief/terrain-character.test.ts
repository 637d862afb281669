import { describe, expect, test } from 'vitest';
import { BlockCache } from '../../src/relief/levels/block-cache.ts';
import { HeightPyramid } from '../../src/relief/levels/height-pyramid.ts';
import { emptyHeights, type Heights, heightBytes } from '../../src/relief/levels/heights.ts';
import { ReliefSource } from '../../src/relief/levels/relief-source.ts';
import { terrainCharacter } from '../../src/relief/levels/terrain-character.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { memoryGrid } from './memory-grid.ts';
import { projection, UTM_32N } from './projections.ts';

const AFFINE = { a: 1, b: 0, c: 652000, d: 0, e: -1, f: 5207600 };

function grid(columns: number, rows: number, height: (column: number, row: number) => number | null) {
  return memoryGrid({ columns, rows, affine: AFFINE, epsg: 32632, height });
}

describe('what a terrain looks like as a whole', () => {
  test('a plane is as steep everywhere as it is', async () => {
    const plane = grid(900, 700, (column) => 300 + 0.2 * column);
    const character = await terrainCharacter(new ReliefSource([placedGrid(plane, projection(UTM_32N))]));
    expect(character.steep).toBeCloseTo(0.2, 3);
    expect(character.low).toBeGreaterThan(300);
    expect(character.high).toBeLessThan(480);
    expect(character.high - character.low).toBeCloseTo(0.96 * 180, -0.7);
  });

  test('heights of voids do not count', async () => {
    const holed = grid(300, 300, (column, row) => ((column + row) % 3 === 0 ? null : 812));
    const character = await terrainCharacter(new ReliefSource([placedGrid(holed, projection(UTM_32N))]));
    expect([character.low, character.high]).toEqual([812, 812]);
  });
});

describe('coarser copies of a grid', () => {
  const cache = () => new BlockCache<Heights>(2 ** 24, heightBytes);

  test('hold the means of the cells they cover', async () => {
    const pyramid = new HeightPyramid(
      grid(600, 500, (column, row) => column + 1000 * row),
      cache(),
    );
    const level = pyramid.level(4);
    expect(level).toMatchObject({ scale: 4, columns: 150, rows: 125 });
    if (!level) return;
    const block = await pyramid.read(level, { column: 70, row: 60, columns: 2, rows: 1 });
    // Mean of 4 × 4 cells from column 280 and row 240: 281.5 + 1000 × 241.5.
    expect([...block.heights]).toEqual([241781.5, 241785.5]);
  });

  test('come from the file where it has them', async () => {
    const coarse = grid(150, 125, () => 7);
    const fine = memoryGrid({
      columns: 600,
      rows: 500,
      affine: AFFINE,
      epsg: 32632,
      height: () => 1,
      overviews: [coarse],
    });
    const pyramid = new HeightPyramid(fine, cache());
    const level = pyramid.level(5);
    expect(level?.base).toBe(coarse);
    if (!level) return;
    const block = await pyramid.read(level, { column: 3, row: 3, columns: 1, rows: 1 });
    expect(block.heights[0]).toBe(7);
    expect(fine.reads).toEqual([]);
  });

  test('keep a void that is wider than a coarse cell and close a single missing cell', async () => {
    const pyramid = new HeightPyramid(
      grid(64, 64, (column, row) => ((column === 5 && row === 5) || (column >= 20 && column < 24) ? null : 40)),
      cache(),
    );
    const level = pyramid.level(2);
    if (!level) throw new Error('level: found none');
    const { known } = await pyramid.read(level, { column: 0, row: 2, columns: 12, rows: 1 });
    expect([...known]).toEqual([1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, 0]);
  });

  test('beyond the edge nothing is known', async () => {
    const pyramid = new HeightPyramid(
      grid(10, 10, () => 5),
      cache(),
    );
    const level = pyramid.level(1);
    if (!level) throw new Error('level: found none');
    const { known } = await pyramid.read(level, { column: -2, row: 4, columns: 14, rows: 1 });
    expect([...known].join('')).toBe('00111111111100');
  });

  test('are not made of a file too large to be read for a glance', () => {
    const vast = { ...grid(10, 10, () => 5), columns: 100_000, rows: 100_000 };
    const pyramid = new HeightPyramid(vast, cache());
    expect(pyramid.level(1)).not.toBeNull();
    expect(pyramid.level(2 ** 10)).toBeNull();
  });
});

describe('blocks that are kept', () => {
  test('are made once for all who ask, and again only after they had to go', async () => {
    const made: string[] = [];
    const cache = new BlockCache<Heights>(3000, heightBytes);
    const owner = {};
    const take = (key: string) =>
      cache.take(owner, key, () => {
        made.push(key);
        return Promise.resolve(emptyHeights({ column: 0, row: 0, columns: 16, rows: 16 }));
      });
    await Promise.all([take('a'), take('a')]);
    await take('b');
    await take('a');
    await take('c');
    await take('a');
    await take('b');
    // 1280 bytes a block: two fit, the one asked for longest ago goes.
    expect(made).toEqual(['a', 'b', 'c', 'b']);
  });

  test('that failed are asked for anew', async () => {
    const cache = new BlockCache<Heights>(3000, heightBytes);
    const owner = {};
    await expect(cache.take(owner, 'a', () => Promise.reject(new Error('torn page')))).rejects.toThrow('torn page');
    const whole = emptyHeights({ column: 0, row: 0, columns: 1, rows: 1 });
    expect(await cache.take(owner, 'a', () => Promise.resolve(whole))).toBe(whole);
  });
});
