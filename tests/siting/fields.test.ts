import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breached } from '../../src/siting/fields/breach.ts';
import { fallingPipe, NO_PIPE } from '../../src/siting/fields/falling-pipe.ts';
import { accumulation, flood } from '../../src/siting/fields/flood.ts';
import { governingLevel, NO_WAY } from '../../src/siting/fields/governing-level.ts';
import { type OpenGround, openGround } from '../../src/siting/fields/open-ground.ts';
import { shutCells } from '../../src/siting/fields/shut-cells.ts';
import { type WayAim, waysFrom } from '../../src/siting/fields/ways-from.ts';
import { fieldOf } from './fields.ts';
import passes from './fixtures/passes.json' with { type: 'json' };

const SHORTEST: WayAim = { kind: 'shortest' };
const SAG = 0.3;

const ground = (columns: number, rows: number, height: (c: number, r: number) => number | null): OpenGround =>
  openGround(fieldOf(columns, rows, height));
const flat = ground(12, 10, () => 0);
const START = 8 * 12 + 3;

const recorded = ground(passes.columns, passes.rows, (c, r) => passes.heights[r * passes.columns + c] ?? null);
const seed = { cell: passes.seed, level: 0 };

describe('the shortest way to every cell', () => {
  it('is that of r.cost -k of GRASS 8.2.1 on level ground', () => {
    // r.cost -k input=one output=ck start_coordinates=3.5,1.5 on a region of 12 × 10 cells of 1 m; r.out.ascii precision=4.
    const { length } = waysFrom(flat, { cell: START, level: 0 }, SHORTEST, SAG);
    const at = (column: number, row: number) => length[row * 12 + column];
    for (const [column, row, cost] of [
      [4, 0, 8.2361],
      [10, 0, 10.7213],
      [11, 0, 11.3137],
      [6, 1, 7.7082],
      [0, 3, 5.8863],
      [11, 9, 8.2361],
    ] as const) {
      expect(at(column, row)).toBeCloseTo(cost, 4);
    }
  });

  it('keeps to the closed form of sixteen neighbours', () => {
    const { length } = waysFrom(
      ground(80, 60, () => 0),
      { cell: 0, level: 0 },
      SHORTEST,
      SAG,
    );
    for (let y = 0; y < 60; y++) {
      for (let x = 0; x < 80; x++) {
        const [dx, dy] = [Math.max(x, y), Math.min(x, y)];
        const expected =
          dx >= 2 * dy ? dx - 2 * dy + dy * Math.sqrt(5) : (2 * dy - dx) * Math.SQRT2 + (dx - dy) * Math.sqrt(5);
        expect(length[y * 80 + x]).toBeCloseTo(expected, 3);
      }
    }
  });

  it('is that of SciPy’s dijkstra on rough ground', () => {
    const rough = waysFrom(recorded, seed, SHORTEST, SAG).length;
    for (const [i, value] of passes.length.entries()) expect(rough[i]).toBeCloseTo(value, 4);
  });
});

describe('the least governing level of every cell', () => {
  it('is that of a minimum spanning tree by SciPy', () => {
    const level = governingLevel(recorded, seed);
    for (const [i, value] of passes.governing.entries()) expect(level[i]).toBe(value);
  });

  it('on an even slope is the ground uphill and the pump downhill, and every way uphill rises all along', () => {
    // Closed form: z = 0.1 x; the way straight up the slope is √1.01 times the level distance.
    const slope = ground(200, 30, (c) => 0.1 * c);
    const start = { cell: 15 * 200 + 50, level: 5 };
    const level = governingLevel(slope, start);
    const ways = waysFrom(slope, start, { kind: 'least-head', friction: 0.01 }, SAG);
    for (let c = 0; c < 200; c++) {
      const at = 15 * 200 + c;
      expect(level[at]).toBeCloseTo(Math.max(5, 0.1 * c), 4);
      expect(ways.level[at]).toBeCloseTo(Math.max(5, 0.1 * c), 4);
      expect(ways.length[at]).toBeCloseTo(Math.abs(c - 50) * Math.sqrt(1.01), 2);
      if (c > 50) expect(ways.sags[at]).toBe(0);
      if (c < 40) expect(ways.sags[at]).toBe(1);
    }
  });

  it('goes through the gap of a ridge where the shortest way goes over it', () => {
    // Closed form: pump (0, 0), ridge of 20 m at x = 100 with a gap of 12 m at y = 300, tank at x = 150: 316.2 + 304.1 m.
    const ridge = ground(260, 330, (c, r) => (c !== 100 ? 0 : r === 300 ? 12 : 20));
    const start = { cell: 0, level: 0 };
    const tank = 150;
    expect(governingLevel(ridge, start)[tank]).toBe(12);
    const low = waysFrom(ridge, start, { kind: 'least-head', friction: 1e-4 }, SAG);
    expect(low.level[tank]).toBe(12);
    expect(low.length[tank]).toBeGreaterThan(620.4);
    expect(low.length[tank]).toBeLessThan(620.4 * 1.0275 + 24);
    const short = waysFrom(ridge, start, SHORTEST, SAG);
    expect(short.level[tank]).toBe(20);
    expect(short.length[tank]).toBeLessThan(150 + 40);
  });

  it('inside a crater without a gap is its wall', () => {
    const crater = ground(101, 101, (c, r) => {
      const far = Math.hypot(c - 50, r - 50);
      return far > 18 && far < 22 ? 30 : 0;
    });
    const start = { cell: 0, level: 0 };
    expect(governingLevel(crater, start)[50 * 101 + 50]).toBe(30);
    expect(waysFrom(crater, start, SHORTEST, SAG).level[50 * 101 + 50]).toBe(30);
  });

  it('is never given where no way leads', () => {
    const walled = ground(20, 20, (c) => (c === 10 ? null : 1));
    expect(governingLevel(walled, { cell: 0, level: 0 })[19]).toBe(NO_WAY);
    expect(waysFrom(walled, { cell: 0, level: 0 }, SHORTEST, SAG).length[19]).toBe(NO_WAY);
  });
});

const grid = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 144, maxLength: 144 });
const cellOf = fc.integer({ min: 0, max: 143 });
const roughGround = (z: readonly number[]): OpenGround => ground(12, 12, (c, r) => z[r * 12 + c] ?? null);

describe('laws of passes over every cell', () => {
  it('a way never governs below the pump or below the ground it leads to', () => {
    fc.assert(
      fc.property(grid, cellOf, (z, pump) => {
        const level = governingLevel(roughGround(z), { cell: pump, level: z[pump] as number });
        for (const [i, height] of z.entries())
          expect(level[i]).toBeGreaterThanOrEqual(Math.max(height, z[pump] as number));
      }),
    );
  });

  it('lowering a cell never raises a governing level', () => {
    fc.assert(
      fc.property(grid, cellOf, cellOf, (z, pump, cell) => {
        const before = governingLevel(roughGround(z), { cell: pump, level: 0 });
        const after = governingLevel(roughGround(z.with(cell, (z[cell] as number) - 5)), { cell: pump, level: 0 });
        for (const [i, level] of after.entries()) expect(level).toBeLessThanOrEqual(before[i] as number);
      }),
    );
  });

  it('pump and tank may be swapped: level and length stay', () => {
    fc.assert(
      fc.property(grid, cellOf, cellOf, (z, a, b) => {
        const rough = roughGround(z);
        expect(governingLevel(rough, { cell: a, level: 0 })[b]).toBe(governingLevel(rough, { cell: b, level: 0 })[a]);
        const there = waysFrom(rough, { cell: a, level: 0 }, SHORTEST, SAG).length[b] as number;
        const back = waysFrom(rough, { cell: b, level: 0 }, SHORTEST, SAG).length[a] as number;
        expect(there).toBeCloseTo(back, 3);
      }),
    );
  });

  it('no way is shorter than straight through the air, nor governed lower than the least', () => {
    fc.assert(
      fc.property(grid, cellOf, (z, pump) => {
        const rough = roughGround(z);
        const ways = waysFrom(rough, { cell: pump, level: 0 }, { kind: 'least-head', friction: 0.02 }, SAG);
        ways.length.forEach((length, i) => {
          const straight = Math.hypot((i % 12) - (pump % 12), Math.floor(i / 12) - Math.floor(pump / 12));
          const rise = (z[i] as number) - (z[pump] as number);
          expect(length).toBeGreaterThanOrEqual(Math.hypot(straight, rise) - 1e-3);
          expect(ways.level[i]).toBeGreaterThanOrEqual(Math.max(z[i] as number, z[pump] as number));
        });
      }),
    );
  });

  it('a deeper trench never takes a place out of reach of a falling pipe', () => {
    fc.assert(
      fc.property(grid, cellOf, fc.double({ min: 0, max: 3, noNaN: true }), (z, source, deeper) => {
        const rough = roughGround(z);
        const start = { cell: source, level: z[source] as number };
        const lay = { leastFall: 0.002, deepest: 0.3, highest: 0 };
        const shallow = fallingPipe(rough, start, lay).level;
        const deep = fallingPipe(rough, start, { ...lay, deepest: 0.3 + deeper }).level;
        for (const [i, level] of shallow.entries()) expect(deep[i]).toBeGreaterThanOrEqual(level);
      }),
    );
  });
});

describe('a falling pipe to every cell', () => {
  it('down an even slope lies on the ground, and up it none can be laid', () => {
    const slope = ground(60, 9, (c) => 30 - 0.1 * c);
    const pipe = fallingPipe(slope, { cell: 4 * 60 + 20, level: 28 }, { leastFall: 0.002, deepest: 0.3, highest: 0 });
    expect(pipe.level[4 * 60 + 50]).toBeCloseTo(25, 4);
    expect(pipe.level[4 * 60 + 10]).toBe(NO_PIPE);
  });

  it('along level ground goes as far as its fall is dug in: depth over least fall', () => {
    // Closed form: 0.3 m deep at 0.01 a metre is used up after 30 m.
    const level = ground(60, 3, () => 10);
    const pipe = fallingPipe(level, { cell: 60, level: 10 }, { leastFall: 0.01, deepest: 0.3, highest: 0 });
    expect(pipe.level[60 + 29]).toBeCloseTo(10 - 0.29, 3);
    expect(pipe.level[60 + 31]).toBe(NO_PIPE);
  });
});

function asciiGrid(text: string): OpenGround {
  const rows = text
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length === 12 && row.every(Number.isFinite));
  return ground(12, rows.length, (c, r) => rows[r]?.[c] ?? null);
}

describe('water over every cell', () => {
  it('fills pits as scikit-image’s reconstruction from the edge does', () => {
    const { level } = flood(recorded);
    for (const [i, value] of passes.filled.entries()) expect(level[i]).toBe(value);
  });

  it('gathers in the stream of a valley as r.watershed -s -a of GRASS 8.2.1 has it', () => {
    // r.watershed -s -a elevation=valley accumulation=acc on fixtures/valley.asc. With -s it takes one of eight neighbours; on
    // row 7 two slopes tie (45, 51 against 44, 50 here would be a tie taken the other way), so the stream alone is compared.
    const valley = asciiGrid(readFileSync(new URL('fixtures/valley.asc', import.meta.url), 'utf8'));
    const cells = accumulation(valley, flood(valley));
    const stream = [3, 4, 5, 6, 7, 8, 9].map((row) => cells[row * 12 + 3]);
    expect(stream).toEqual([13, 22, 30, 37, 45, 51, 56]);
  });

  it('runs from every cell to the edge, each cell counted once', () => {
    fc.assert(
      fc.property(grid, (z) => {
        const rough = roughGround(z);
        const run = flood(rough);
        const cells = accumulation(rough, run);
        let off = 0;
        run.downstream.forEach((k, i) => {
          if (k === 254) off += cells[i] as number;
        });
        expect(off).toBe(144);
      }),
    );
  });

  /** A basin of 5 × 5 cells, walled by `thick` cells of a height, with lower ground all around. */
  const basin = (wall: number, thick: number) =>
    ground(41, 41, (c, r) => {
      const far = Math.max(Math.abs(c - 20), Math.abs(r - 20));
      return far <= 2 ? 5 : far <= 2 + thick ? 5 + wall : 5 - (far - 2 - thick) * 0.1;
    });
  const pondOf = (g: OpenGround) => (flood(g).level[20 * 41 + 20] as number) - (g.heights[20 * 41 + 20] as number);

  it('cuts a dam that is thin and low enough and leaves one that is not', () => {
    expect(pondOf(basin(7, 3))).toBeCloseTo(7, 4);
    expect(pondOf(breached(basin(1.5, 3), { cells: 6, depth: 2 }))).toBeCloseTo(0, 4);
    expect(pondOf(breached(basin(7, 3), { cells: 6, depth: 2 }))).toBeCloseTo(7, 4);
    expect(pondOf(breached(basin(7, 3), { cells: 6, depth: 8 }))).toBeCloseTo(0, 4);
    expect(pondOf(breached(basin(7, 9), { cells: 6, depth: 8 }))).toBeCloseTo(7, 4);
  });
});

describe('areas that must not be crossed', () => {
  const wall = [
    { column: 9.6, row: -1 },
    { column: 10.2, row: -1 },
    { column: 10.2, row: 40 },
    { column: 9.6, row: 40 },
  ];
  const field = fieldOf(30, 30, () => 0);
  const start = { cell: 15 * 30, level: 0 };
  const lengthTo = (gates: readonly { column: number; row: number }[]) => {
    const shut = shutCells(field, [{ rings: [wall], gates }]);
    return waysFrom(openGround(field, shut), start, SHORTEST, SAG).length[15 * 30 + 29] as number;
  };

  it('are not slipped through, however narrow', () => {
    expect(lengthTo([])).toBe(NO_WAY);
  });

  it('are crossed at a gate, the long way round to it', () => {
    const there = Math.hypot(10, 12) + Math.hypot(19, 12);
    const length = lengthTo([{ column: 10, row: 27 }]);
    expect(length).toBeGreaterThanOrEqual(there - 3);
    expect(length).toBeLessThan(there * 1.0275 + 3);
    expect(lengthTo([{ column: 10, row: 15 }])).toBeCloseTo(29, 4);
  });
});
