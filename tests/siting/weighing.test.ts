import { describe, expect, it } from 'vitest';
import { proposeRoute } from '../../src/siting/propose-route.ts';
import type { RouteRequest } from '../../src/siting/route-proposal.ts';
import { USUAL_ROUTE_SETTINGS } from '../../src/siting/route-settings.ts';
import type { ElevationGrid } from '../../src/terrain/grid/grid.ts';
import { terrainFromGrids } from '../../src/terrain/ground/terrain-from-grids.ts';
import { gridOf } from '../terrain/grid-in-memory.ts';
import { placed, positionOf } from '../terrain/placed.ts';

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
  const block = gridOf(121, 141, (c, r) => (Math.abs(c - 60) <= 10 && Math.abs(r - 70) <= 13 ? null : 10));
  const bends = async (bendAsLine: number) => {
    const found = await deliveryLine({ grid: block, from: [10, 70], to: [110, 70], settings: { bendAsLine } });
    return found.vertices.length - 2;
  };

  it('is saved when it costs more than the way that saves it', async () => {
    expect(await bends(6)).toBe(1);
  });

  it('is taken when it costs less', async () => {
    expect(await bends(2)).toBe(2);
  });
});

describe('a ridge with a low pass far aside', () => {
  /** A plain at 10 m, a ridge 16 m high across it, and a pass of 4.9 m some 115 m aside. */
  const ridge = gridOf(320, 320, (c, r) => {
    if (Math.abs(c - 160) > 4) return 10;
    return Math.abs(r - 60) <= 4 ? 14.9 : 26;
  });

  it('is passed there when the lift that it saves is worth the way', async () => {
    // Straight over: 100 m by 16 m of lift. Round by the pass: 2 √(50² + 111²) = 243 m by 4.9 m, three quarters of it.
    // A look from 8 m, with none between that and 4 m, would take the pass for dearer than the way over.
    const settings = { restAsLine: 0, friction: 0, bendAsLine: 0, lookAround: 1.5 };
    const found = await deliveryLine({ grid: ridge, from: [110, 175], to: [210, 175], settings });
    expect(found.governingLift).toBeCloseTo(4.9, 6);
    expect(found.horizontal).toBeGreaterThan(230);
    expect(found.horizontal).toBeLessThan(260);
  });
});
