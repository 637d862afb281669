import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawWay } from '../../src/siting/search/draw-way.ts';
import { type FallingTerms, fallingRule } from '../../src/siting/search/falling-rule.ts';
import type { FieldPlace, HeightField } from '../../src/siting/search/height-field.ts';
import type { RouteRule } from '../../src/siting/search/route-rule.ts';
import { RouteSearch } from '../../src/siting/search/route-search.ts';
import { runSearch } from '../../src/siting/search/run-search.ts';
import { type ShortestTerms, shortestRule } from '../../src/siting/search/shortest-rule.ts';
import { fieldOf, levelLength } from './fields.ts';
import { type PieceCost, referenceCost } from './reference-graph.ts';

const EVEN = { steepFrom: 10, steepWeight: 0 };
const FREE = { ...EVEN, ceiling: Number.POSITIVE_INFINITY, mostCost: Number.POSITIVE_INFINITY };

function costOf(
  field: HeightField,
  from: FieldPlace,
  to: FieldPlace,
  rule: RouteRule,
  neighbours: 16 | 32 = 16,
): number | null {
  const search = new RouteSearch(field, { from, to }, rule, neighbours);
  const state = search.go(Number.POSITIVE_INFINITY);
  if (state === 'found') return search.way().at(-1)?.carried.first ?? null;
  expect(state).toBe('none');
  return null;
}

/** Small rough fields with two of their cells. */
const small = fc
  .record({ columns: fc.integer({ min: 3, max: 8 }), rows: fc.integer({ min: 3, max: 8 }) })
  .chain(({ columns, rows }) =>
    fc.record({
      field: fc
        .array(fc.double({ min: 0, max: 6, noNaN: true }), { minLength: columns * rows, maxLength: columns * rows })
        .map((z) => fieldOf(columns, rows, (c, r) => z[r * columns + c] ?? 0)),
      from: fc.record({ column: fc.nat(columns - 1), row: fc.nat(rows - 1) }),
      to: fc.record({ column: fc.nat(columns - 1), row: fc.nat(rows - 1) }),
    }),
  )
  .filter(({ from, to }) => from.column !== to.column || from.row !== to.row);

const ground = (field: HeightField, { column, row }: FieldPlace) => field.heights[row * field.columns + column] ?? 0;

function fallingTerms(field: HeightField, from: FieldPlace, to: FieldPlace, deepest: number): FallingTerms {
  const ends = { from: ground(field, from), to: ground(field, to) };
  return { ...EVEN, ...ends, leastFall: 0.01, deepest, highest: 0, slack: 0 };
}

describe('the search for a way', () => {
  it('costs what an open graph library finds (ngraph.path 1.6.1), steep ground dearer', () => {
    const piece: PieceCost = (run, from, to) => {
      const grade = Math.abs(to - from) / run;
      return Math.hypot(run, to - from) * (1 + 0.7 * Math.max(0, grade - 0.4));
    };
    fc.assert(
      fc.property(small, ({ field, from, to }) => {
        const found = costOf(field, from, to, shortestRule({ ...FREE, steepFrom: 0.4, steepWeight: 0.7 }));
        expect(found).toBeCloseTo(referenceCost(field, from, to, piece) ?? Number.NaN, 9);
      }),
      { numRuns: 60 },
    );
  });

  it('falls all the way at the cost of the graph library, or has no way where the library has none', () => {
    const piece: PieceCost = (run, from, to) => (from - to >= 0.01 * run ? Math.hypot(run, to - from) : null);
    let [ways, none] = [0, 0];
    fc.assert(
      fc.property(small, ({ field: rough, from, to }) => {
        const tilted = (c: number, r: number) => 0.4 * ground(rough, { column: c, row: r }) - 1.2 * r;
        const field = fieldOf(rough.columns, rough.rows, tilted);
        const found = costOf(field, from, to, fallingRule(fallingTerms(field, from, to, 0)));
        const expected = referenceCost(field, from, to, piece);
        if (expected === null) none += 1;
        else ways += 1;
        if (expected === null) expect(found).toBeNull();
        else expect(found).toBeCloseTo(expected, 9);
      }),
      { numRuns: 200, seed: 5 },
    );
    expect(Math.min(ways, none)).toBeGreaterThan(20);
  });

  it('never gets longer when the trench may go deeper, and never beats the straight line', () => {
    fc.assert(
      fc.property(small, fc.double({ min: 0, max: 3, noNaN: true }), ({ field, from, to }, more) => {
        const shallow = costOf(field, from, to, fallingRule(fallingTerms(field, from, to, 0.5)));
        const deep = costOf(field, from, to, fallingRule(fallingTerms(field, from, to, 0.5 + more)));
        if (shallow !== null) expect(deep ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(shallow + 1e-6);
        const straight = Math.hypot(levelLength([from, to]), ground(field, to) - ground(field, from));
        if (deep !== null) expect(deep).toBeGreaterThanOrEqual(straight - 1e-9);
      }),
    );
  });

  it('costs as much there as back', () => {
    fc.assert(
      fc.property(small, ({ field, from, to }) => {
        const rule = shortestRule({ ...FREE, steepFrom: 0.4, steepWeight: 0.7 });
        expect(costOf(field, from, to, rule)).toBeCloseTo(costOf(field, to, from, rule) ?? Number.NaN, 9);
      }),
    );
  });

  it('goes through a gap in a line of voids at most 2.75 % longer than straight lines with 16 moves, 1.31 % with 32', () => {
    // Bounds in closed form from the angles between moves: 1/cos of half the widest angle, as sides of a triangle.
    const field = fieldOf(121, 121, (column, row) => (column === 60 && Math.abs(row - 60) > 2 ? null : 0));
    const rule = shortestRule(FREE);
    const gap = { column: 60, row: 60 };
    const cell = fc.record({ column: fc.integer({ min: 0, max: 50 }), row: fc.nat(120) });
    fc.assert(
      fc.property(cell, cell, (from, mirrored) => {
        const to = { column: 120 - mirrored.column, row: mirrored.row };
        const straight = levelLength([from, gap, to]);
        const taut = Math.min(...[58, 59, 60, 61, 62].map((row) => levelLength([from, { column: 60, row }, to])));
        const sixteen = (costOf(field, from, to, rule, 16) ?? Number.NaN) / straight;
        const thirtyTwo = (costOf(field, from, to, rule, 32) ?? Number.NaN) / straight;
        expect(sixteen).toBeLessThanOrEqual(1.0275);
        expect(thirtyTwo).toBeLessThanOrEqual(1.0132);
        expect(Math.min(sixteen, thirtyTwo)).toBeGreaterThanOrEqual(taut / straight - 1e-3);
      }),
      { numRuns: 25 },
    );
  });

  it('has no way through a line of voids, however thin', () => {
    for (const slope of [0, 0.3, 1]) {
      const field = fieldOf(40, 40, (c, r) => (Math.round(20 + slope * (r - 20)) === c ? null : 0));
      const crossed = fieldOf(40, 40, (c, r) => (Math.round(20 + slope * (c - 20)) === r ? null : 0));
      expect(costOf(crossed, { column: 20, row: 0 }, { column: 20, row: 39 }, shortestRule(FREE), 32)).toBeNull();
      expect(costOf(field, { column: 0, row: 20 }, { column: 39, row: 20 }, shortestRule(FREE), 32)).toBeNull();
    }
  });
});

describe('a way drawn straight', () => {
  it('lies round a steep round hill like a taut string: two tangents and an arc', async () => {
    // Closed form: 2 √(d² − R²) + R (π − 2 acos(R/d)), R where the hill passes the ceiling, d from its middle to either end.
    const [middle, reach, distance] = [150, 60, 140];
    const field = fieldOf(301, 301, (c, r) => Math.max(0, 61 - Math.hypot(c - middle, r - middle)) * 20);
    const terms: ShortestTerms = { ...FREE, ceiling: 20 };
    const ends = { from: { column: middle - distance, row: middle }, to: { column: middle + distance, row: middle } };
    const found = await runSearch({ field, ends, neighbours: 16 }, shortestRule(terms));
    if (found.state !== 'found') throw new Error(found.state);
    const taut = 2 * Math.sqrt(distance ** 2 - reach ** 2) + reach * (Math.PI - 2 * Math.acos(reach / distance));
    const way = drawWay(field, found.way, shortestRule(terms), 3);
    const length = levelLength(way.map((w) => w.place));
    expect(length / taut).toBeGreaterThan(0.999);
    // With a bend at three metres of line, tangents at n bends: 2 √(d² − R²) + 2 n R tan(θ/2n), θ the arc's angle.
    const theta = Math.PI - 2 * Math.acos(reach / distance);
    const tangents = (n: number) =>
      2 * Math.sqrt(distance ** 2 - reach ** 2) + 2 * n * reach * Math.tan(theta / (2 * n)) + 3 * n;
    const least = Math.min(...[1, 2, 3, 4, 5, 6, 7, 8].map(tangents));
    expect((length + 3 * (way.length - 2)) / least).toBeLessThan(1.01);
  });

  it('follows a gully that winds three times round, close to its inner corners', async () => {
    // A square spiral three cells wide, 0.05 m lower each cell along; its walls are out of reach of any trench.
    const corners = spiral(20, 3);
    const along = new Map<string, number>();
    let at = 0;
    for (const [k, corner] of corners.entries()) {
      const next = corners[k + 1];
      if (!next) break;
      const [dc, dr] = [Math.sign(next.column - corner.column), Math.sign(next.row - corner.row)];
      for (
        let c = corner;
        c.column !== next.column || c.row !== next.row;
        c = { column: c.column + dc, row: c.row + dr }
      ) {
        for (const [u, v] of SQUARE) {
          const name = `${c.column + u},${c.row + v}`;
          if (!along.has(name)) along.set(name, at);
        }
        at += 1;
      }
    }
    const field = fieldOf(64, 64, (c, r) => {
      const steps = along.get(`${c},${r}`);
      return steps === undefined ? 90 : 50 - 0.05 * steps;
    });
    const from = corners[0];
    const to = corners.at(-1);
    if (!from || !to) throw new Error('no corners');
    const end = { column: to.column, row: to.row };
    const ends = { from, to: end };
    const terms = { ...fallingTerms(field, from, end, 0.6), leastFall: 0.002 };
    const found = await runSearch({ field, ends, neighbours: 32 }, fallingRule(terms));
    if (found.state !== 'found') throw new Error(found.state);
    const way = drawWay(field, found.way, fallingRule(terms), 3);
    const length = levelLength(way.map((w) => w.place));
    const middleLine = levelLength(corners);
    expect(length).toBeLessThan(middleLine);
    // Each of the turns saves at most two cells on either side: the gully's half width.
    expect(length).toBeGreaterThan(middleLine - 4 * corners.length);
    expect(way.length).toBeGreaterThanOrEqual(corners.length);
  });
});

const SQUARE = [-1, 0, 1].flatMap((u) => [-1, 0, 1].map((v) => [u, v] as const));

/** Corners of a square spiral from its outside to its inside, six cells from turn to turn. */
function spiral(half: number, turns: number): FieldPlace[] {
  const middle = 32;
  const corners: FieldPlace[] = [];
  for (let turn = 0; turn < turns; turn++) {
    const out = half - 6 * turn;
    corners.push({ column: middle - out - (turn === 0 ? 0 : 6), row: middle - out });
    corners.push({ column: middle + out, row: middle - out });
    corners.push({ column: middle + out, row: middle + out });
    corners.push({ column: middle - out, row: middle + out });
  }
  return corners;
}
