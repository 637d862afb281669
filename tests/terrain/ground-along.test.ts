import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceBetween } from '../../src/geodesy/geodesic.ts';
import type { GroundLine } from '../../src/terrain/grid/ground.ts';
import type { PlacedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { groundAlong, MOST_SAMPLES } from '../../src/terrain/ground/ground-along.ts';
import { gridOf, METRE_CELLS } from './grid-in-memory.ts';
import { placed, positionOf } from './placed.ts';

type Cell = readonly [column: number, row: number];

const along = (grid: PlacedGrid, ...cells: readonly Cell[]): Promise<GroundLine> =>
  groundAlong(
    [grid],
    cells.map(([column, row]) => positionOf(grid, column, row)),
  );

/** On the central meridian of UTM a grid metre is 1/0.9996 m on the ellipsoid. Source: definition of UTM, EPSG method 9807. */
const ON_GROUND = 1 / 0.9996;

describe('the ground along a line over known shapes', () => {
  it('is level on a level plain and as long as the geodesic', async () => {
    const grid = await placed(gridOf(200, 200, () => 123.25));
    const line = await along(grid, [10.5, 20.5], [180.5, 150.5]);
    const length = distanceBetween(positionOf(grid, 10.5, 20.5), positionOf(grid, 180.5, 150.5));
    expect(line.horizontal).toBeCloseTo(length, 9);
    expect(line.slope).toBeCloseTo(length, 9);
    expect(line.ground.every((z) => z === 123.25)).toBe(true);
    expect(line.voids).toEqual([]);
  });

  it('climbs a plane evenly: the slope length is the length times √(1 + m²)', async () => {
    const grid = await placed(gridOf(300, 50, (c) => 100 + 0.3 * (c + 0.5)));
    const line = await along(grid, [20, 25], [280, 25]);
    const rise = 0.3 * 260;
    expect(line.ground[0]).toBeCloseTo(106, 6);
    expect(line.ground.at(-1)).toBeCloseTo(106 + rise, 6);
    expect(line.slope).toBeCloseTo(Math.hypot(260 * ON_GROUND, rise), 4);
  });

  it('runs over the top of a cone at the height of its tip', async () => {
    const cone = (c: number, r: number): number => 500 - 0.5 * Math.hypot(c - 100, r - 100);
    const grid = await placed(gridOf(201, 201, cone));
    const line = await along(grid, [50.5, 100.5], [100.5, 100.5], [150.5, 100.5]);
    expect(line.ground[line.vertices[1] ?? -1]).toBeCloseTo(500, 6);
    expect(Math.max(...line.ground)).toBeCloseTo(500, 6);
    expect(line.slope).toBeCloseTo(2 * Math.hypot(50 * ON_GROUND, 25), 4);
  });

  it('goes down into a gully and up again: 2 √(run² + depth²)', async () => {
    const grid = await placed(gridOf(101, 30, (c) => 200 + Math.abs(c - 50)));
    const line = await along(grid, [20.5, 15], [80.5, 15]);
    expect(Math.min(...line.ground)).toBeLessThan(200.3);
    expect(line.slope).toBeCloseTo(2 * Math.hypot(30 * ON_GROUND, 30), 0);
  });

  it('climbs a step between two middles, half way up on the edge between them', async () => {
    const grid = await placed(gridOf(40, 10, (c) => (c < 20 ? 10 : 14)));
    const line = await along(grid, [19, 5], [20, 5], [21, 5]);
    expect(line.ground[0]).toBeCloseTo(10, 9);
    expect(line.ground[line.vertices[1] ?? -1]).toBeCloseTo(12, 6);
    expect(line.ground.at(-1)).toBeCloseTo(14, 9);
  });
});

describe('the doubt of heights along a line', () => {
  it('is the slope of the ground, whichever way the line crosses it', async () => {
    const grid = await placed(gridOf(60, 60, (c, r) => 100 + 0.3 * c + 0.4 * r));
    // 3-4-5: along the contour, where the line is level, and straight down.
    for (const ends of [
      [
        [10.5, 40.5],
        [50.5, 10.5],
      ],
      [
        [10.5, 10.5],
        [40.5, 50.5],
      ],
    ] as const) {
      const { doubt } = await along(grid, ...ends);
      for (const slope of doubt.slope) expect(slope).toBeCloseTo(0.5 / ON_GROUND, 6);
      for (const smoothing of doubt.smoothing) expect(smoothing).toBeCloseTo(0, 6);
      expect(doubt.other).toBeUndefined();
    }
  });

  it('is what cell averaging takes from a ridge: a twelfth of its bend at the middle of a cell', async () => {
    // Block means of z = −k x² lie k/12 below it at every middle; 2 k is its second difference. Closed form.
    const bend = 0.06;
    const mean = (c: number) => 300 - bend * ((c - 30) ** 2 + 1 / 12);
    const grid = await placed(gridOf(61, 20, mean));
    const line = await along(grid, [20.5, 10.5], [30.5, 10.5], [40.5, 10.5]);
    const top = line.vertices[1] ?? -1;
    expect(line.ground[top]).toBeCloseTo(300 - bend / 12, 9);
    expect(line.doubt.smoothing[top]).toBeCloseTo(-bend / 12, 6);
    expect(line.doubt.slope[top]).toBeCloseTo(0, 6);
  });

  it('is nought where there is no height', async () => {
    const grid = await placed(gridOf(60, 20, (c) => (c > 25 && c < 35 ? null : 100 + c)));
    const { doubt, known } = await along(grid, [10.5, 10.5], [50.5, 10.5]);
    known.forEach((is, i) => {
      if (is === 0) expect([doubt.slope[i], doubt.smoothing[i]]).toEqual([0, 0]);
    });
    expect(known).toContain(0);
  });
});

describe('voids and edges', () => {
  it('has no height where any of the cells around is missing, and says where', async () => {
    const grid = await placed(gridOf(60, 20, (c, r) => (c === 30 && r === 9 ? null : 50)));
    const line = await along(grid, [10.5, 10], [50.5, 10]);
    expect(line.voids).toHaveLength(1);
    const [hole] = line.voids;
    expect((line.at[hole?.first ?? -1] ?? 0) / ON_GROUND).toBeGreaterThan(19);
    expect((line.at[hole?.first ?? -1] ?? 0) / ON_GROUND).toBeLessThan(19.5);
    expect((line.at[hole?.last ?? -1] ?? 0) / ON_GROUND).toBeGreaterThan(20.5);
    expect((line.at[hole?.last ?? -1] ?? 0) / ON_GROUND).toBeLessThan(21);
    expect(line.slope).toBeCloseTo(line.horizontal, 9);
  });

  it('crosses a void straight between the heights on either side', async () => {
    const grid = await placed(gridOf(100, 20, (c) => (c >= 40 && c < 60 ? null : c < 50 ? 10 : 30)));
    const line = await along(grid, [20.5, 10.5], [80.5, 10.5]);
    const [hole] = line.voids;
    const before = line.at[(hole?.first ?? 0) - 1] ?? 0;
    const after = line.at[(hole?.last ?? 0) + 1] ?? 0;
    const straight = Math.hypot(after - before, 20);
    expect(line.slope).toBeCloseTo(before + straight + line.horizontal - after, 6);
  });

  it('takes the nearest middle within half a cell of the edge and nothing beyond it', async () => {
    const grid = await placed(gridOf(20, 10, (c) => c));
    const line = await along(grid, [-3, 5.5], [0, 5.5], [0.25, 5.5], [0.5, 5.5], [1, 5.5]);
    const at = (vertex: number): number | null => {
      const i = line.vertices[vertex] ?? -1;
      return line.known[i] === 1 ? (line.ground[i] ?? null) : null;
    };
    expect(at(0)).toBeNull();
    expect(at(2)).toBe(0);
    expect(at(3)).toBeCloseTo(0, 6);
    expect(at(4)).toBeCloseTo(0.5, 6);
    expect(line.voids[0]?.first).toBe(0);
  });

  it('counts a line as level before its first height and after its last', async () => {
    const grid = await placed(gridOf(40, 20, (c) => 10 + c));
    const line = await along(grid, [-30, 10], [20.5, 10], [70, 10]);
    const known = [...line.at.keys()].filter((i) => line.known[i] === 1);
    const [first = 0, last = 0] = [known[0], known.at(-1)];
    const sloping = Math.hypot((line.at[last] ?? 0) - (line.at[first] ?? 0), 39);
    expect(line.voids).toHaveLength(2);
    const level = line.horizontal - (line.at[last] ?? 0) + (line.at[first] ?? 0);
    // Half a cell at either edge is level too.
    expect(Math.abs(line.slope - level - sloping)).toBeLessThan(0.6);
  });

  it('is all void off the grid, never a made-up height', async () => {
    const grid = await placed(gridOf(20, 20, () => 5));
    const line = await along(grid, [100, 100], [140, 100]);
    expect(line.known.includes(1)).toBe(false);
    expect(line.voids).toEqual([{ first: 0, last: line.at.length - 1 }]);
    expect(line.slope).toBeCloseTo(line.horizontal, 9);
  });
});

describe('samples', () => {
  it('stand no further apart than half a cell and keep every drawn vertex', async () => {
    const grid = await placed(gridOf(100, 100, () => 1));
    const vertices: readonly Cell[] = [
      [5, 5],
      [5.1, 5.2],
      [70, 33],
      [70, 33],
      [20, 90],
    ];
    const line = await along(grid, ...vertices);
    for (let i = 1; i < line.at.length; i++) expect((line.at[i] ?? 0) - (line.at[i - 1] ?? 0)).toBeLessThanOrEqual(0.5);
    vertices.forEach(([c, r], k) => {
      const drawn = positionOf(grid, c, r);
      expect(line.lon[line.vertices[k] ?? -1]).toBe(drawn.lon);
      expect(line.lat[line.vertices[k] ?? -1]).toBe(drawn.lat);
    });
  });

  it('come from one window for a farm route and from a few for a long diagonal one', async () => {
    const farm = gridOf(2000, 2000, () => 1);
    await along(await placed(farm), [800, 700], [1200, 1100]);
    expect(farm.reads).toHaveLength(1);
    const long = gridOf(6000, 6000, () => 1);
    await along(await placed(long), [10, 10], [5990, 5990]);
    const cells = long.reads.reduce((sum, w) => sum + w.columns * w.rows, 0);
    expect(long.reads.length).toBeLessThan(20);
    expect(cells).toBeLessThan(6000 * 6000 * 0.2);
  });

  it('stand further apart on a line of hundreds of kilometres, which says so', async () => {
    const grid = await placed(gridOf(100, 100, () => 1));
    const line = [positionOf(grid, 50, 50), { lon: 5, lat: 46 }];
    const found = await groundAlong([grid], line);
    expect(found.at.length).toBeLessThanOrEqual(MOST_SAMPLES);
    expect(found.at.length).toBeGreaterThan(MOST_SAMPLES * 0.99);
    const [note] = found.notes ?? [];
    expect(note?.code).toBe('coarse-samples');
    expect(Number(note?.data.step_m)).toBeGreaterThan((found.at[1] ?? 0) - 1e-6);
    expect(Number(note?.data.wanted_m)).toBeLessThan(0.5);
  });

  it('are refused on a line without vertices, with a million of them or off the globe', async () => {
    const grid = await placed(gridOf(100, 100, () => 1));
    await expect(groundAlong([grid], [])).rejects.toThrow('found 0');
    await expect(groundAlong([grid], new Array(1e6).fill({ lon: 3, lat: 46 }))).rejects.toThrow('found 1000000');
    await expect(groundAlong([grid], [{ lon: Number.NaN, lat: 46 }])).rejects.toThrow('longitude NaN');
  });

  it('stop when they are no longer wanted', async () => {
    const grid = await placed(gridOf(100, 100, () => 1));
    const line = [positionOf(grid, 10, 10), positionOf(grid, 80, 80)];
    await expect(groundAlong([grid], line, AbortSignal.abort())).rejects.toThrow();
  });
});

describe('laws of a drawn line', () => {
  const cell = fc.tuple(fc.double({ min: 3, max: 97, noNaN: true }), fc.double({ min: 3, max: 97, noNaN: true }));
  const wavy = (c: number, r: number): number => 40 + 6 * Math.sin(c / 9) + 5 * Math.cos(r / 7);

  it('drawn backwards it is as long and its heights are mirrored', async () => {
    const grid = await placed(gridOf(100, 100, wavy));
    await fc.assert(
      fc.asyncProperty(fc.array(cell, { minLength: 2, maxLength: 6 }), async (cells) => {
        const there = await along(grid, ...cells);
        const back = await along(grid, ...[...cells].reverse());
        expect(back.horizontal).toBeCloseTo(there.horizontal, 7);
        expect(back.slope).toBeCloseTo(there.slope, 5);
        expect(back.ground.length).toBe(there.ground.length);
        there.ground.forEach((z, i) => {
          expect(Math.abs(z - (back.ground[back.ground.length - 1 - i] ?? 0))).toBeLessThan(1e-6);
        });
      }),
      { numRuns: 30 },
    );
  });

  it('a vertex added on the line changes neither its length nor its ends', async () => {
    const grid = await placed(gridOf(100, 100, wavy));
    await fc.assert(
      fc.asyncProperty(cell, cell, fc.double({ min: 0.1, max: 0.9, noNaN: true }), async (a, b, share) => {
        const line = [positionOf(grid, ...a), positionOf(grid, ...b)] as const;
        const whole = await groundAlong([grid], line);
        const i = Math.round(share * (whole.at.length - 1));
        const between = { lon: whole.lon[i] ?? 0, lat: whole.lat[i] ?? 0 };
        const parted = await groundAlong([grid], [line[0], between, line[1]]);
        expect(Math.abs(parted.horizontal - whole.horizontal)).toBeLessThan(2e-8);
        expect(Math.abs(parted.slope - whole.slope)).toBeLessThan(0.01);
        expect(Math.abs((parted.ground[parted.vertices[1] ?? -1] ?? 0) - (whole.ground[i] ?? 0))).toBeLessThan(1e-6);
      }),
      { numRuns: 40 },
    );
  });

  it('a plane is the same plane on finer cells, on cells turned round and on cells that count upwards', async () => {
    const { c: x0, f: y0 } = METRE_CELLS;
    const plane = (x: number, y: number): number => 80 + 0.21 * (x - x0) + 0.13 * (y - y0);
    const affines = [
      METRE_CELLS,
      { ...METRE_CELLS, a: 0.25, e: -0.25 },
      { a: 0.8, b: 0.6, c: x0 - 20, d: 0.6, e: -0.8, f: y0 - 20 },
      { ...METRE_CELLS, e: 1, f: y0 - 100 },
    ];
    const grids = await Promise.all(
      affines.map((affine) => {
        const height = (c: number, r: number): number =>
          plane(
            affine.a * (c + 0.5) + affine.b * (r + 0.5) + affine.c,
            affine.d * (c + 0.5) + affine.e * (r + 0.5) + affine.f,
          );
        return placed(gridOf(400, 400, height, { affine }));
      }),
    );
    const [first] = grids;
    if (!first) throw new Error('no grid');
    const ends = [positionOf(first, 40, 45), positionOf(first, 70, 60)];
    for (const grid of grids) {
      const line = await groundAlong([grid], ends);
      expect(line.voids).toEqual([]);
      expect(line.ground[0]).toBeCloseTo(plane(x0 + 40, y0 - 45), 6);
      expect(line.ground.at(-1)).toBeCloseTo(plane(x0 + 70, y0 - 60), 6);
    }
  });

  it('is found on a grid that counts longitude from 0 to 360', async () => {
    const affine = { a: 0.001, b: 0, c: 237, d: 0, e: -0.001, f: 46 };
    const grid = await placed(gridOf(100, 100, (c) => c, { affine, crs: { kind: 'epsg', code: 4326 } }));
    expect(positionOf(grid, 50, 50).lon).toBeCloseTo(-122.95, 9);
    const line = await along(grid, [20, 50], [30, 50]);
    expect(line.ground[0]).toBeCloseTo(19.5, 6);
    expect(line.lon[0]).toBeCloseTo(-122.98, 9);
  });

  it('crosses the antimeridian without going round the world', async () => {
    const affine = { a: 0.0001, b: 0, c: 179.99, d: 0, e: -0.0001, f: -16.9 };
    const grid = await placed(gridOf(200, 100, (c) => c, { affine, crs: { kind: 'epsg', code: 4326 } }));
    const line = await groundAlong(
      [grid],
      [
        { lon: 179.995, lat: -16.905 },
        { lon: -179.995, lat: -16.905 },
      ],
    );
    expect(line.voids).toEqual([]);
    expect(line.horizontal).toBeLessThan(1100);
    expect(line.lon.every((lon) => Math.abs(lon) <= 180)).toBe(true);
    expect(line.ground.at(-1)).toBeCloseTo(149.5, 5);
  });
});
