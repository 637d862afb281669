import { describe, expect, it } from 'vitest';
import { proposeRoute } from '../../src/siting/lines/propose-route.ts';
import type { RouteRequest } from '../../src/siting/lines/route-proposal.ts';
import { USUAL_ROUTE_SETTINGS } from '../../src/siting/lines/route-settings.ts';
import { wayThrough } from '../../src/siting/search/draw-way.ts';
import { fewerBends } from '../../src/siting/search/fewer-bends.ts';
import { shortestRule } from '../../src/siting/search/shortest-rule.ts';
import type { ElevationGrid } from '../../src/terrain/grid/grid.ts';
import { terrainFromGrids } from '../../src/terrain/ground/open-terrain.ts';
import { gridOf } from '../terrain/grid-in-memory.ts';
import { placed, positionOf } from '../terrain/placed.ts';
import { fieldOf } from './fields.ts';

interface Asked {
  readonly grid: ElevationGrid;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly settings: Partial<RouteRequest['settings']>;
}

async function deliveryLine({ grid, from, to, settings }: Asked) {
  const lattice = await placed(grid);
  const source = { file: grid.name, grid, verticalUnit: 'metre' as const, verticalDatum: null, notes: [] };
  const terrain = await terrainFromGrids([source]);
  if (!terrain.ok) throw new Error(JSON.stringify(terrain.problems));
  const end = ([column, row]: readonly [number, number]) => ({
    position: positionOf(lattice, column + 0.5, row + 0.5),
    height: 0,
  });
  const found = await proposeRoute(
    { from: end(from), to: end(to), role: 'delivery', settings: { ...USUAL_ROUTE_SETTINGS, ...settings } },
    terrain.value,
  );
  if (found.kind !== 'route') throw new Error(`found ${JSON.stringify(found)}, expected a route`);
  return found;
}

describe('a bend', () => {
  // Level ground with a block of voids 21 m by 27 m across the straight way. Round two of its corners it is 105.4 m, round one
  // place before its middle, 8 cells out, 109.3 m: 3.9 m longer and with a bend less.
  const block = (c: number, r: number) => (Math.abs(c - 60) <= 10 && Math.abs(r - 70) <= 13 ? null : 10);
  const grid = gridOf(121, 141, block);
  const bends = async (bendAsLine: number) => {
    const found = await deliveryLine({ grid, from: [10, 70], to: [110, 70], settings: { bendAsLine } });
    return found.vertices.length - 2;
  };

  it('is saved when it costs more than the way that saves it', async () => {
    expect(await bends(4.3)).toBe(1);
  });

  it('is taken when it costs less', async () => {
    expect(await bends(3.5)).toBe(2);
  });

  it('is weighed against the line as it was drawn first, leg for leg', () => {
    const field = fieldOf(121, 141, block);
    const rule = shortestRule({ ceiling: 20, mostCost: Number.POSITIVE_INFINITY, steepFrom: 0.4, steepWeight: 1 });
    const corners = [
      { column: 10, row: 70 },
      { column: 49, row: 56 },
      { column: 71, row: 56 },
      { column: 110, row: 70 },
    ];
    const places = corners.flatMap((place, k) => {
      const next = corners[k + 1];
      const between = (share: number) =>
        next && {
          column: place.column + share * (next.column - place.column),
          row: place.row + share * (next.row - place.row),
        };
      return [place, between(0.25), between(0.5), between(0.75)].filter((each) => each !== undefined);
    });
    const raw = wayThrough(field, places, rule);
    const pulled = raw.filter(({ place }) => corners.includes(place));
    const start = { first: 0, second: 0 };
    // 2 √(39² + 14²) + 22 = 104.9 m with two bends; by (60, 48), 2 √(50² + 22²) = 109.3 m with one.
    const legs = (bend: number) => fewerBends(field, { raw, pulled, start }, rule, bend).length - 1;
    expect(pulled).toHaveLength(4);
    expect(legs(4)).toBe(3);
    expect(legs(5)).toBe(2);
  });
});

describe('a ridge with a low pass far aside', () => {
  /** A plain at 10 m, a ridge of 16 m across it with slopes of 16 in 45, and a pass of 4.9 m more than a hundred metres aside. */
  const ridge = gridOf(320, 320, (c, r) => {
    const share = Math.max(0, 1 - Math.abs(c - 160) / 45);
    return 10 + (Math.abs(r - 60) <= 10 ? 4.9 : 16) * share;
  });

  it('is passed there when the lift that it saves is worth the way', async () => {
    // Straight over: 100 m by 16 m of lift. Round by the pass: at least 2 √(50² + 105²) = 233 m by 4.9 m.
    // Along the slope at 4.9 m it is some 275 m, four fifths of the work.
    // A look from 8 m, with none between that and 4 m, would take the pass for dearer than the way over.
    const settings = { restAsLine: 0, friction: 0, bendAsLine: 0, lookAround: 1.5 };
    const found = await deliveryLine({ grid: ridge, from: [110, 175], to: [210, 175], settings });
    // The line cuts the corners of the pass, where the ridge begins.
    expect(found.governingLift).toBeGreaterThan(4.89);
    expect(found.governingLift).toBeLessThan(5.1);
    expect(found.horizontal).toBeGreaterThan(233);
    expect(found.horizontal).toBeLessThan(300);
  });
});
