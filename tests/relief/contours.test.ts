import { VectorTile } from '@mapbox/vector-tile';
import fc from 'fast-check';
import { PbfReader } from 'pbf';
import { describe, expect, test } from 'vitest';
import { ReliefSource } from '../../src/relief/levels/relief-source.ts';
import { terrainCharacter } from '../../src/relief/levels/terrain-character.ts';
import { contourInterval, contourTile, encodeVectorTile, joinPieces } from '../../src/relief/tiles/contour-tile.ts';
import { type CornerField, contourPieces, crossing } from '../../src/relief/tiles/marching-squares.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { memoryGrid } from './memory-grid.ts';
import { projection, UTM_32N } from './projections.ts';

function field(side: number, height: (column: number, row: number) => number | null): CornerField {
  const all = Array.from({ length: side * side }, (_, at) => height(at % side, Math.floor(at / side)));
  return {
    side,
    heights: Float32Array.from(all, (z) => z ?? 0),
    known: Uint8Array.from(all, (z) => (z === null ? 0 : 1)),
  };
}

function lines(of: CornerField, step: number) {
  return [...contourPieces(of, step)].flatMap(([multiple, { level, edges }]) =>
    joinPieces(edges).map((line) => ({ multiple, points: line.map((edge) => crossing(of, edge, level)) })),
  );
}

describe('contour lines', () => {
  test('on a plane run straight across at their height', () => {
    const drawn = lines(
      field(9, (column) => 10 + column),
      2,
    );
    expect(drawn.map((line) => line.multiple)).toEqual([6, 7, 8, 9]);
    for (const { multiple, points } of drawn) {
      expect(points).toHaveLength(9);
      for (const [column] of points) expect(column).toBeCloseTo(2 * multiple - 10, 5);
    }
  });

  test('on a cone are closed circles whose length is that of the circle', () => {
    const drawn = lines(
      field(101, (column, row) => 99 - Math.hypot(column - 50, row - 50)),
      10,
    );
    const rings = drawn.filter(({ points }) => String(points[0]) === String(points[points.length - 1]));
    expect(rings.map(({ multiple }) => multiple).sort()).toEqual([5, 6, 7, 8, 9]);
    for (const { multiple, points } of rings) {
      const length = points.slice(1).reduce((sum, [x, y], at) => {
        const [fromX, fromY] = points[at] ?? [0, 0];
        return sum + Math.hypot(x - fromX, y - fromY);
      }, 0);
      expect(length / (2 * Math.PI * (99 - 10 * multiple))).toBeCloseTo(1, 2);
    }
  });

  test('keep higher ground to the right of their way, so every ring around a hill turns the same way', () => {
    const [ring] = lines(
      field(21, (column, row) => 20 - Math.hypot(column - 10, row - 10)),
      15,
    );
    const points = ring?.points ?? [];
    const area = points.slice(1).reduce((sum, [x, y], at) => {
      const [fromX, fromY] = points[at] ?? [0, 0];
      return sum + (fromX * y - x * fromY) / 2;
    }, 0);
    // Clockwise as seen on a page whose rows run downwards.
    expect(area).toBeGreaterThan(0);
    expect(area / (Math.PI * 25)).toBeCloseTo(1, 1);
  });

  test('never end inside known ground', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 64, maxLength: 64 }), (heights) => {
        for (const { points } of lines(
          field(8, (column, row) => (heights[8 * row + column] ?? 0) / 10),
          1,
        )) {
          const [first, last] = [points[0], points[points.length - 1]];
          const closed = String(first) === String(last);
          const onBorder = [first, last].every((point) => point?.some((place) => place === 0 || place === 7));
          expect(closed || onBorder).toBe(true);
        }
      }),
    );
  });

  test('are not drawn across a void', () => {
    const drawn = lines(
      field(9, (column, row) => (row === 4 ? null : 10 + column)),
      2,
    );
    expect(drawn).toHaveLength(8);
    for (const { points } of drawn) for (const [, row] of points) expect(row <= 3 || row >= 5).toBe(true);
  });
});

describe('the step between contour lines', () => {
  const gentle = { pixel: 0.5, steep: 0.1, finest: 0.1 };

  test('is a usual one in the unit shown', () => {
    expect(contourInterval({ unit: 'metre', ...gentle }).step).toBe(1);
    expect(contourInterval({ unit: 'foot', ...gentle }).step).toBe(2);
    expect(contourInterval({ unit: 'foot', ...gentle, steep: 1 }).step).toBe(20);
  });

  test('grows with steepness and with distance, never shrinks', () => {
    const positive = fc.double({ min: 0.01, max: 30, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (pixel, steep) => {
        const step = (p: number, s: number) => contourInterval({ unit: 'metre', pixel: p, steep: s, finest: 0 }).step;
        expect(step(pixel * 2, steep)).toBeGreaterThanOrEqual(step(pixel, steep));
        expect(step(pixel, steep * 2)).toBeGreaterThanOrEqual(step(pixel, steep));
      }),
    );
  });

  test('is never finer than the DEM can tell', () => {
    expect(contourInterval({ unit: 'metre', pixel: 0.1, steep: 0.01, finest: 4 }).step).toBe(5);
  });
});

describe('contours of a map tile', () => {
  const grid = memoryGrid({
    columns: 800,
    rows: 800,
    affine: { a: 1, b: 0, c: 652000, d: 0, e: -1, f: 5207600 },
    epsg: 32632,
    height: (column, row) => (row > 700 ? null : 300 + 0.1 * column),
  });
  const source = new ReliefSource([placedGrid(grid, projection(UTM_32N))]);
  // Around 47° 0' N, 11° 0' E, at zoom 16.
  const tile = { z: 16, x: 34770, y: 23050 };

  async function decoded(address: { z: number; x: number; y: number }) {
    const character = await terrainCharacter(source);
    const { data, interval } = await contourTile(source, character, { tile: address, unit: 'metre', finest: 0.1 });
    return { interval, layers: new VectorTile(new PbfReader(data)).layers };
  }

  test('carry their height as a label, and every fifth is an index line', async () => {
    const { layers, interval } = await decoded(tile);
    const features = Array.from({ length: layers.contour?.length ?? 0 }, (_, at) => layers.contour?.feature(at));
    expect(features.length).toBeGreaterThan(10);
    for (const feature of features) {
      const height = Number(feature?.properties.height);
      expect(height % interval).toBe(0);
      expect(feature?.properties.label).toBe(String(height));
      expect(feature?.properties.index).toBe(height % (5 * interval) === 0);
    }
  });

  test('meet at the edge between two tiles', async () => {
    const left = (await decoded(tile)).layers.contour;
    const right = (await decoded({ ...tile, y: tile.y + 1 })).layers.contour;
    const crossings = (layer: typeof left, edge: number) =>
      Array.from({ length: layer?.length ?? 0 }, (_, at) => layer?.feature(at)).flatMap((feature) =>
        (feature?.loadGeometry() ?? [])
          .flat()
          .filter((point) => point.y === edge && point.x >= 0 && point.x <= 4096)
          .map((point) => `${feature?.properties.label} ${point.x}`),
      );
    const bottom = crossings(left, 4096);
    expect(bottom.length).toBeGreaterThan(2);
    expect(crossings(right, 0).sort()).toEqual(bottom.sort());
  });

  test('show ground without heights inside the DEM as a void', async () => {
    const { layers } = await decoded({ ...tile, y: tile.y + 1 });
    expect(layers.void?.length).toBeGreaterThan(0);
    expect((await decoded({ ...tile, x: tile.x + 40 })).layers.void).toBeUndefined();
  });

  test('lines and rings survive the encoding', () => {
    const ring = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 0],
    ] as const;
    const data = encodeVectorTile({
      one: [{ kind: 'polygon', parts: [ring], properties: { a: 1.5, b: 'x', c: true } }],
    });
    const feature = new VectorTile(new PbfReader(data)).layers.one?.feature(0);
    expect(feature?.properties).toEqual({ a: 1.5, b: 'x', c: true });
    expect(feature?.loadGeometry()[0]?.map(({ x, y }) => [x, y])).toEqual(ring);
  });
});
