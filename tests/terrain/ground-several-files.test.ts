import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElevationGrid } from '../../src/terrain/grid/grid.ts';
import type { TerrainSource } from '../../src/terrain/grid/grid-files.ts';
import type { Terrain } from '../../src/terrain/grid/ground.ts';
import { joinLattices } from '../../src/terrain/grid/mosaic.ts';
import { terrainFromGrids } from '../../src/terrain/ground/open-terrain.ts';
import { gridOf, METRE_CELLS, type MemoryGrid, type MemoryGridOptions } from './grid-in-memory.ts';
import { placed, positionOf } from './placed.ts';

const { c: X0, f: Y0 } = METRE_CELLS;

type Surface = (x: number, y: number) => number | null;

/** A file over a surface given in map coordinates, with cells of a size and its upper left corner so far east and south. */
function fileOver(
  surface: Surface,
  about: {
    name: string;
    east: number;
    south: number;
    columns: number;
    rows: number;
    cell?: number;
  } & MemoryGridOptions,
): MemoryGrid {
  const { name, east, south, columns, rows, cell = 1, ...options } = about;
  const affine = { a: cell, b: 0, c: X0 + east, d: 0, e: -cell, f: Y0 - south };
  const height = (c: number, r: number): number | null => surface(east + cell * (c + 0.5), south + cell * (r + 0.5));
  return gridOf(columns, rows, height, { ...options, name, affine });
}

const sourceOf = (grid: ElevationGrid, verticalDatum: string | null = null): TerrainSource => ({
  file: grid.name,
  grid,
  verticalUnit: 'metre',
  verticalDatum,
  notes: [],
});

async function terrainOf(...sources: readonly TerrainSource[]): Promise<Terrain> {
  const made = await terrainFromGrids(sources);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

const hill: Surface = (x, y) => 200 + 8 * Math.sin(x / 17) + 6 * Math.cos(y / 13) + 0.05 * x;

async function lineOver(terrain: Terrain, ...spots: readonly (readonly [number, number])[]) {
  const frame = await placed(gridOf(1, 1, () => 0));
  return terrain.groundAlong(spots.map(([x, y]) => positionOf(frame, x, y)));
}

describe('four neighbouring files on one lattice', () => {
  const quarter = (name: string, east: number, south: number): MemoryGrid =>
    fileOver(hill, { name, east, south, columns: 50, rows: 40 });
  const files = [quarter('nw', 0, 0), quarter('ne', 50, 0), quarter('sw', 0, 40), quarter('se', 50, 40)];

  it('give the very heights that one file of the whole would', async () => {
    const whole = await terrainOf(
      sourceOf(fileOver(hill, { name: 'whole', east: 0, south: 0, columns: 100, rows: 80 })),
    );
    const parts = await terrainOf(...files.map((f) => sourceOf(f)));
    const ends = [
      [3, 4],
      [97, 71],
      [55, 12],
      [20, 60],
    ] as const;
    const one = await lineOver(whole, ...ends);
    const four = await lineOver(parts, ...ends);
    expect(four.voids).toEqual([]);
    expect(four.ground).toEqual(one.ground);
    expect(four.slope).toBe(one.slope);
  });

  it('say where a line passes from one to the next, and that there is no step', async () => {
    const line = await lineOver(await terrainOf(...files.map((f) => sourceOf(f))), [3, 20.5], [97, 20.5]);
    expect(line.notes?.map((n) => [n.code, n.data.from, n.data.to, n.data.crossings])).toEqual([
      ['seam', 'nw', 'ne', 1],
    ]);
    expect(Number(line.notes?.[0]?.data.at_m)).toBeCloseTo(47 / 0.9996, 0);
    expect(Math.abs(Number(line.notes?.[0]?.data.step_m))).toBeLessThan(0.2);
  });

  it('tell of each point which file it lies in', async () => {
    const terrain = await terrainOf(...files.map((f) => sourceOf(f)));
    const frame = await placed(gridOf(1, 1, () => 0));
    const points = await terrain.groundAt([
      positionOf(frame, 10, 10),
      positionOf(frame, 90, 70),
      positionOf(frame, 500, 500),
    ]);
    expect(points.map((p) => p.file)).toEqual(['nw', 'se', undefined]);
  });

  it('read no more of each file than the line needs', async () => {
    const own = [quarter('nw', 0, 0), quarter('ne', 50, 0), quarter('sw', 0, 40), quarter('se', 50, 40)];
    await lineOver(await terrainOf(...own.map((f) => sourceOf(f))), [10, 10], [30, 20]);
    expect(own.map((f) => f.reads.length)).toEqual([1, 0, 0, 0]);
  });
});

describe('a step between files', () => {
  it('is reported with its height where they only touch', async () => {
    const plane: Surface = (x) => 100 + 0.1 * x;
    const raised: Surface = (x) => 100.8 + 0.1 * x;
    const west = fileOver(plane, { name: 'west', east: 0, south: 0, columns: 50, rows: 20 });
    const east = fileOver(raised, { name: 'east', east: 50, south: 0, columns: 50, rows: 20 });
    const line = await lineOver(await terrainOf(sourceOf(west), sourceOf(east)), [10, 10], [90, 10]);
    expect(line.notes?.[0]?.code).toBe('seam');
    expect(Number(line.notes?.[0]?.data.step_m)).toBeCloseTo(0.8, 6);
  });

  it('is measured where they overlap, whatever the slope, and has its sign turned with the line', async () => {
    const rough: Surface = (x, y) => 100 + 3 * Math.sin(x) + 2 * Math.cos(1.7 * y);
    const fine = fileOver(rough, { name: 'fine', east: 0, south: 0, columns: 60, rows: 30 });
    const wide = fileOver((x, y) => (rough(x, y) ?? 0) - 1.5, {
      name: 'wide',
      east: 0,
      south: 0,
      columns: 100,
      rows: 30,
    });
    const terrain = await terrainOf(sourceOf(fine), sourceOf(wide));
    for (const [from, to] of [
      [10.5, 90.5],
      [90.5, 10.5],
    ] as const) {
      const line = await lineOver(terrain, [from, 10.5], [to, 10.5]);
      expect(line.notes?.[0]?.data).toMatchObject({ from: 'fine', to: 'wide' });
      expect(Number(line.notes?.[0]?.data.step_m)).toBeCloseTo(-1.5, 6);
    }
  });
});

describe('files of different cells', () => {
  it('give the finest height wherever it is known and the coarser one in its voids and beyond its edge', async () => {
    const hole = (x: number, y: number): boolean => x > 40 && x < 50 && y > 10 && y < 20;
    const fine = fileOver((x, y) => (hole(x, y) ? null : 1), {
      name: 'fine',
      east: 0,
      south: 0,
      columns: 80,
      rows: 30,
    });
    const coarse = fileOver(() => 2, { name: 'coarse', east: -50, south: -50, columns: 60, rows: 40, cell: 5 });
    const line = await lineOver(await terrainOf(sourceOf(coarse), sourceOf(fine)), [10, 15], [120, 15]);
    const at = (metres: number): number => line.ground[line.at.findIndex((a) => a >= metres / 0.9996)] ?? 0;
    expect(line.voids).toEqual([]);
    expect([at(5), at(35), at(60), at(90)]).toEqual([1, 2, 1, 2]);
    expect(line.notes).toHaveLength(1);
    expect(line.notes?.[0]?.data).toMatchObject({ from: 'fine', to: 'coarse', crossings: 3 });
  });

  it('give each point the spread of its own file', async () => {
    const fine = fileOver(() => 1, { name: 'lidar_dtm.tif', east: 0, south: 0, columns: 80, rows: 30 });
    const coarse = fileOver(() => 2, { name: 'wide.tif', east: -500, south: -500, columns: 100, rows: 100, cell: 10 });
    const terrain = await terrainOf(sourceOf(coarse), sourceOf(fine));
    const frame = await placed(gridOf(1, 1, () => 0));
    const [near, far] = await terrain.groundAt([positionOf(frame, 10, 10), positionOf(frame, 200, 200)]);
    expect(terrain.about.accuracy.id).toBe('lidar-1m-scrub');
    expect(near?.accuracy).toBeUndefined();
    expect(far?.accuracy?.id).toBe('seamless-10m');
    expect(far?.file).toBe('wide.tif');
  });

  it('give each stretch of a line the spread of its own file', async () => {
    const fine = fileOver(() => 1, { name: 'lidar_dtm.tif', east: 0, south: 0, columns: 80, rows: 30 });
    const coarse = fileOver(() => 2, { name: 'wide.tif', east: -500, south: -500, columns: 100, rows: 100, cell: 10 });
    const line = await lineOver(await terrainOf(sourceOf(coarse), sourceOf(fine)), [10, 15], [120, 15]);
    const classAt = (metres: number) => {
      const sample = line.at.findIndex((a) => a >= metres / 0.9996);
      return line.doubt.other?.accuracy.get(line.doubt.other.mark[sample] ?? 0)?.id;
    };
    // The fine file, whose class is the terrain's, ends 70 m from the start.
    expect([classAt(10), classAt(60), classAt(80), classAt(100)]).toEqual([
      undefined,
      undefined,
      'seamless-10m',
      'seamless-10m',
    ]);
  });

  it('may lie in different CRS: degrees beside a national grid', async () => {
    const inUtm = fileOver(() => 5, { name: 'utm', east: 0, south: 0, columns: 60, rows: 60 });
    const second = 1 / 3600;
    const affine = { a: second, b: 0, c: 2.99, d: 0, e: -second, f: 46.96 };
    const inDegrees = gridOf(120, 120, () => 7, { name: 'deg', affine, crs: { kind: 'epsg', code: 4326 } });
    const line = await lineOver(await terrainOf(sourceOf(inDegrees), sourceOf(inUtm)), [30, 30], [300, 30]);
    expect(line.voids).toEqual([]);
    expect(line.ground[0]).toBe(5);
    expect(line.ground.at(-1)).toBe(7);
    expect(line.notes?.[0]?.data).toMatchObject({ from: 'utm', to: 'deg', step_m: 2 });
  });
});

describe('joining files', () => {
  it('changes no height, whatever part each file covers and in which order they come', async () => {
    const window = fc.record({
      column: fc.integer({ min: 0, max: 30 }),
      row: fc.integer({ min: 0, max: 20 }),
      columns: fc.integer({ min: 1, max: 30 }),
      rows: fc.integer({ min: 1, max: 20 }),
    });
    const corner = fc.integer({ min: 0, max: 20 });
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(corner, corner), { minLength: 2, maxLength: 4 }),
        window,
        async (corners, cells) => {
          const files = corners.map(([east, south], k) =>
            fileOver(hill, { name: `f${k}`, east, south, columns: 25, rows: 20 }),
          );
          const joined = joinLattices(files);
          expect(joined).toHaveLength(1);
          const [mosaic] = joined;
          if (!mosaic) return;
          const columns = Math.min(cells.columns, mosaic.columns - Math.min(cells.column, mosaic.columns - 1));
          const rows = Math.min(cells.rows, mosaic.rows - Math.min(cells.row, mosaic.rows - 1));
          const column = Math.min(cells.column, mosaic.columns - 1);
          const row = Math.min(cells.row, mosaic.rows - 1);
          const block = await mosaic.read({ column, row, columns, rows });
          for (let r = 0; r < rows; r++) {
            for (let c = 0; c < columns; c++) {
              const x = mosaic.affine.c - X0 + column + c + 0.5;
              const y = Y0 - mosaic.affine.f + row + r + 0.5;
              const covered = corners.some(([e, s]) => x > e && x < e + 25 && y > s && y < s + 20);
              expect(block.known[r * columns + c]).toBe(covered ? 1 : 0);
              if (covered) expect(block.heights[r * columns + c]).toBeCloseTo(hill(x, y) ?? 0, 9);
            }
          }
        },
      ),
      { numRuns: 50 },
    );
  });

  it('leaves files apart whose cells lie between each other’s', () => {
    const one = fileOver(hill, { name: 'one', east: 0, south: 0, columns: 20, rows: 20 });
    const between = fileOver(hill, { name: 'between', east: 20.4, south: 0, columns: 20, rows: 20 });
    const coarser = fileOver(hill, { name: 'coarser', east: 20, south: 0, columns: 20, rows: 20, cell: 2 });
    const elsewhere = fileOver(hill, {
      name: 'zone',
      east: 20,
      south: 0,
      columns: 20,
      rows: 20,
      crs: { kind: 'epsg', code: 32632 },
    });
    expect(joinLattices([one, between, coarser, elsewhere])).toHaveLength(4);
  });

  it('joins coarser copies too, as far as all files have them', () => {
    const copy = (name: string, east: number): MemoryGrid =>
      fileOver(hill, { name, east, south: 0, columns: 10, rows: 10, cell: 2 });
    const one = fileOver(hill, { name: 'a', east: 0, south: 0, columns: 20, rows: 20, overviews: [copy('a2', 0)] });
    const two = fileOver(hill, { name: 'b', east: 20, south: 0, columns: 20, rows: 20, overviews: [copy('b2', 20)] });
    const [joined] = joinLattices([one, two]);
    expect(joined?.overviews.map((o) => [o.columns, o.rows])).toEqual([[20, 10]]);
  });
});

describe('a terrain that may not be', () => {
  const grid = gridOf(10, 10, () => 1);
  const problems = async (...sources: readonly TerrainSource[]): Promise<string[]> => {
    const made = await terrainFromGrids(sources);
    return made.ok ? [] : made.problems.map((p) => p.code);
  };

  it('is one of no file, of two zero levels, or in a CRS that nobody knows', async () => {
    expect(await problems()).toEqual(['terrain-empty']);
    expect(await problems(sourceOf(grid, 'NAVD88 height'), sourceOf(grid, 'EGM2008 height'))).toEqual([
      'terrain-datums-differ',
    ]);
    const lost = gridOf(10, 10, () => 1, { crs: { kind: 'epsg', code: 999999 } });
    expect(await problems(sourceOf(lost))).toEqual(['crs-unknown']);
  });

  it('is one of an accuracy class that does not exist', async () => {
    const made = await terrainFromGrids([sourceOf(grid), sourceOf(grid)], { accuracy: 'perfect' });
    expect(made.ok ? [] : made.problems.map((p) => p.code)).toEqual(['accuracy-unknown']);
  });
});

describe('a class of accuracy that the user chose', () => {
  it('is that of every file, each with the doubt of place of its own cells', async () => {
    const files = [
      fileOver(hill, { name: 'fine', east: 0, south: 0, columns: 40, rows: 40 }),
      fileOver(hill, { name: 'coarse', east: 40, south: 0, columns: 10, rows: 10, cell: 4 }),
    ];
    const made = await terrainFromGrids(
      files.map((f) => sourceOf(f)),
      { accuracy: 'lidar-5m' },
    );
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const { about, groundAt } = made.value;
    expect(about.accuracy.id).toBe('lidar-5m');
    expect(about.notes.map((note) => note.code)).not.toContain('accuracy-inferred');
    const frame = await placed(gridOf(1, 1, () => 0));
    const [onFine, onCoarse] = await groundAt([positionOf(frame, 20, 20), positionOf(frame, 60, 20)]);
    expect(onFine?.accuracy).toBeUndefined();
    expect(onCoarse?.accuracy?.id).toBe('lidar-5m');
    expect(onCoarse?.accuracy?.cell).toBeCloseTo(4 * about.accuracy.cell, 2);
    expect(onCoarse?.accuracy?.placement).toBeCloseTo(4 * about.accuracy.placement, 2);
  });
});

describe('what is known of a terrain', () => {
  it('is its files, its cell on the ground and the corners of the area', async () => {
    const { about } = await terrainOf(
      sourceOf(
        gridOf(100, 50, () => 1, { name: 'dtm.tif' }),
        'NAVD88 height',
      ),
    );
    expect(about.files).toEqual(['dtm.tif']);
    expect(about.crs).toBe('WGS 84 / UTM zone 31N');
    expect(about.cell.width).toBeCloseTo(1 / 0.9996, 6);
    expect(about.size).toEqual({ columns: 100, rows: 50 });
    expect(about.outline).toHaveLength(4);
    expect(about.verticalDatum).toBe('NAVD88 height');
    expect(about.notes.map((n) => n.code)).toEqual(['accuracy-inferred']);
  });

  it('holds a word on files that do not say above what their heights count', async () => {
    const one = fileOver(() => 1, { name: 'said', east: 0, south: 0, columns: 10, rows: 10 });
    const two = fileOver(() => 1, { name: 'silent', east: 10, south: 0, columns: 10, rows: 10 });
    const { about } = await terrainOf(sourceOf(one, 'NAVD88 height'), sourceOf(two));
    expect(about.notes).toContainEqual({ code: 'datum-unstated', data: { files: 'silent' } });
    expect(about.notes).toContainEqual({ code: 'several-files', data: { files: 2 } });
  });

  it('warns of a CRS that is used on the other side of the world', async () => {
    const affine = { a: 1, b: 0, c: 155000, d: 0, e: -1, f: 9000000 };
    const { about } = await terrainOf(
      sourceOf(gridOf(10, 10, () => 1, { affine, crs: { kind: 'epsg', code: 27700 } })),
    );
    expect(about.notes.map((n) => n.code)).toContain('outside-crs-area');
    expect(about.notes.map((n) => n.code)).toContain('datum-shift');
  });
});
