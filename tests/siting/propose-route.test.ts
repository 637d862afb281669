import { describe, expect, it } from 'vitest';
import { distanceBetween } from '../../src/geodesy/geodesic.ts';
import type { Position } from '../../src/geodesy/position.ts';
import { proposeRoute } from '../../src/siting/lines/propose-route.ts';
import type { RouteProposal, RouteRequest } from '../../src/siting/lines/route-proposal.ts';
import { USUAL_ROUTE_SETTINGS } from '../../src/siting/lines/route-settings.ts';
import type { ElevationGrid } from '../../src/terrain/grid/grid.ts';
import type { GridTerrain } from '../../src/terrain/ground/ground-window.ts';
import { terrainFromGrids } from '../../src/terrain/ground/open-terrain.ts';
import { gridOf } from '../terrain/grid-in-memory.ts';
import { placed, positionOf } from '../terrain/placed.ts';

async function terrainOf(...grids: readonly ElevationGrid[]): Promise<GridTerrain> {
  const sources = grids.map((grid) => ({
    file: grid.name,
    grid,
    verticalUnit: 'metre' as const,
    verticalDatum: null,
    notes: [],
  }));
  const terrain = await terrainFromGrids(sources);
  if (!terrain.ok) throw new Error(JSON.stringify(terrain.problems));
  return terrain.value;
}

interface Asked {
  readonly grid: ElevationGrid;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly role: RouteRequest['role'];
  readonly settings?: Partial<RouteRequest['settings']>;
  readonly toHeight?: number;
}

async function ask({ grid, from, to, role, settings, toHeight }: Asked): Promise<RouteProposal> {
  const lattice = await placed(grid);
  const request: RouteRequest = {
    from: { position: positionOf(lattice, from[0] + 0.5, from[1] + 0.5), height: 0 },
    to: { position: positionOf(lattice, to[0] + 0.5, to[1] + 0.5), height: toHeight ?? 0 },
    role,
    settings: { ...USUAL_ROUTE_SETTINGS, ...settings },
  };
  return proposeRoute(request, await terrainOf(grid));
}

function routeOf(proposal: RouteProposal) {
  if (proposal.kind !== 'route') throw new Error(`found ${JSON.stringify(proposal)}, expected a route`);
  return proposal;
}

async function cellOf(grid: ElevationGrid, position: Position): Promise<{ column: number; row: number }> {
  const cell = (await placed(grid)).cellAt(position);
  if (!cell) throw new Error('no cell');
  return cell;
}

/** Ridge across the whole field from north to south, ten metres high but for a pass of `pass` metres at row 30. */
const ridge = (pass: number) =>
  gridOf(120, 120, (c, r) => (Math.abs(c - 60) > 3 ? 3 : Math.abs(r - 30) <= 3 ? pass : 10), { name: 'ridge' });

describe('a line that must fall all the way', () => {
  it('is straight down a plane, as long as the plane says', async () => {
    const grid = gridOf(200, 150, (c, r) => 100 - 0.08 * c - 0.03 * r);
    const found = routeOf(await ask({ grid, from: [20, 20], to: [160, 100], role: 'gravity' }));
    expect(found.vertices).toHaveLength(2);
    const [from, to] = found.vertices;
    if (!from || !to) throw new Error('no ends');
    const level = distanceBetween(from, to);
    expect(found.horizontal).toBeCloseTo(level, 9);
    // Drop of the plane between the two cells: 0.08 · 140 + 0.03 · 80 m.
    expect(found.length).toBeCloseTo(Math.hypot(level, 13.6), 3);
    expect(found.cut?.below).toBeCloseTo(0, 9);
  });

  it('says where a ridge stands too high for it, and by how much', async () => {
    const none = { leastFall: 0, deepest: 0.6, highest: 0 };
    const grid = ridge(4.5);
    const level = await ask({ grid, from: [20, 60], to: [100, 60], role: 'gravity', settings: none });
    if (level.kind !== 'blocked') throw new Error(level.kind);
    // Ground of 3 m at the start, a pass of 4.5 m: 1.5 m to cut, 0.6 m of it allowed.
    expect(level.excess).toBeCloseTo(0.9, 9);
    // Laid anyway it goes through the pass in a trench of those 1.5 m.
    expect(level.anyway?.cut?.below).toBeCloseTo(1.5, 6);
    expect(level.anyway?.cut?.above).toBeCloseTo(0, 9);
    const at = await cellOf(grid, level.at);
    expect(Math.abs(at.column - 60.5)).toBeLessThanOrEqual(4);
    expect(Math.abs(at.row - 30.5)).toBeLessThanOrEqual(4);
  });

  it('must be cut deeper by what it falls on the way to the pass', async () => {
    const settings = { leastFall: 0.005, deepest: 0.6, highest: 0 };
    const grid = ridge(4.5);
    const found = await ask({ grid, from: [20, 30], to: [100, 30], role: 'gravity', settings });
    if (found.kind !== 'blocked') throw new Error(found.kind);
    // The worst place is the far edge of the pass, 43 m from the start, or the end on ground of 3 m, 80 m from it, if that lacks
    // more: 4.5 − 0.6 − (3 − 0.005 · 43) = 1.115 m. A cell of this grid is 1/0.9996 m on the ground.
    expect(found.excess).toBeCloseTo(4.5 - 0.6 - (3 - (0.005 * 43) / 0.9996), 3);
  });

  it('goes through the pass when the trench may be that deep, and lies no deeper', async () => {
    const settings = { leastFall: 0.002, deepest: 1.8, highest: 0 };
    const grid = ridge(4.5);
    const found = routeOf(await ask({ grid, from: [20, 60], to: [100, 60], role: 'supply', settings }));
    const cells = await Promise.all(found.vertices.map((v) => cellOf(grid, v)));
    const rows = cells.filter((c) => Math.abs(c.column - 60.5) < 10).map((c) => c.row);
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(Math.abs(row - 30.5)).toBeLessThan(6);
    expect(found.cut?.below ?? Number.NaN).toBeLessThanOrEqual(1.8);
    expect(found.cut?.below ?? Number.NaN).toBeGreaterThan(1.5);
    expect(found.vertices.length).toBeLessThanOrEqual(6);
  });

  it('finds a pass in a wide window that is looked through in means of cells', async () => {
    const grid = gridOf(900, 900, (c, r) => (Math.abs(c - 450) > 40 ? 3 : Math.abs(r - 200) <= 40 ? 4.5 : 10));
    const settings = { leastFall: 0, deepest: 0.6, highest: 0 };
    const found = await ask({ grid, from: [200, 450], to: [700, 450], role: 'gravity', settings });
    if (found.kind !== 'blocked') throw new Error(found.kind);
    expect(found.excess).toBeCloseTo(0.9, 9);
    const at = await cellOf(grid, found.at);
    expect(Math.abs(at.row - 200.5)).toBeLessThanOrEqual(45);
  });

  it('is cut off by a line of voids', async () => {
    const grid = gridOf(80, 80, (c) => (c === 40 ? null : 50 - 0.1 * c));
    expect((await ask({ grid, from: [10, 40], to: [70, 40], role: 'gravity' })).kind).toBe('cut-off');
    expect((await ask({ grid, from: [10, 40], to: [70, 40], role: 'delivery' })).kind).toBe('cut-off');
    expect((await ask({ grid, from: [10, 40], to: [70, 40], role: 'drive' })).kind).toBe('cut-off');
  });
});

describe('a delivery line', () => {
  /** A plain at 10 m with a round knoll of 25 m, 40 m across at its foot, on the straight way to the tank. */
  const knoll = gridOf(300, 200, (c, r) => 10 + 25 * Math.max(0, 1 - Math.hypot(c - 150, r - 100) / 40));

  it('goes round a knoll when the lift is worth the way, and shows the way over it beside', async () => {
    const found = routeOf(await ask({ grid: knoll, from: [60, 100], to: [240, 100], role: 'delivery', toHeight: 6 }));
    // Tank inlet at 16 m: the line may rise to that height, 30.4 m from the knoll's middle.
    const [reach, distance] = [40 * (1 - 6 / 25), 90];
    const arc = reach * (Math.PI - 2 * Math.acos(reach / distance));
    const taut = 2 * Math.sqrt(distance ** 2 - reach ** 2) + arc;
    expect(found.governingLift).toBeCloseTo(6, 1);
    expect(found.horizontal * 0.9996).toBeGreaterThan(taut * 0.995);
    expect(found.horizontal * 0.9996).toBeLessThan(taut * 1.03);
    expect(found.vertices.length).toBeLessThanOrEqual(6);
    expect(found.other?.horizontal ?? Number.NaN).toBeLessThan(found.horizontal);
    expect(found.other?.governingLift ?? Number.NaN).toBeGreaterThan(8);
  });

  it('goes straight over when the tank stands as high as the knoll', async () => {
    const found = routeOf(await ask({ grid: knoll, from: [60, 100], to: [240, 100], role: 'delivery', toHeight: 26 }));
    expect(found.other).toBeNull();
    expect(found.horizontal).toBeLessThan(180 * 1.05);
    expect(found.governingLift).toBeCloseTo(26, 9);
  });

  it('goes over when the line is dear beside all else and lifting costs little', async () => {
    const wide = gridOf(400, 700, (c, r) => 10 + (r > 40 ? Math.max(0, 4 - Math.abs(c - 200) / 10) : 0));
    const settings = { restAsLine: 0, friction: 0.05, lookAround: 3 };
    const found = routeOf(
      await ask({ grid: wide, from: [120, 340], to: [280, 340], role: 'delivery', toHeight: 0, settings }),
    );
    expect(found.vertices).toHaveLength(2);
    expect(found.governingLift).toBeCloseTo(4, 1);
    expect(found.other).toBeNull();
  });

  it('lies on either side of the same line whichever end is asked from, when nothing rises above its outlet', async () => {
    const grid = gridOf(200, 200, (c, r) => 20 + 3 * Math.sin(c / 15) * Math.cos(r / 20));
    const there = routeOf(await ask({ grid, from: [30, 40], to: [170, 150], role: 'delivery', toHeight: 9 }));
    const back = routeOf(await ask({ grid, from: [170, 150], to: [30, 40], role: 'delivery', toHeight: 9 }));
    expect(there.length / back.length).toBeCloseTo(1, 2);
  });
});

describe('a drive pipe', () => {
  const bank = gridOf(60, 60, (c) => 20 - 0.2 * c + (Math.abs(c - 30) <= 2 ? 1.5 : 0));

  it('is the straight line, with how far the ground stands above it', async () => {
    const settings = { deepest: 1.6 };
    const found = routeOf(await ask({ grid: bank, from: [10, 30], to: [50, 30], role: 'drive', settings }));
    expect(found.vertices).toHaveLength(2);
    // A plane with a bank of 1.5 m on it.
    expect(found.cut?.below).toBeCloseTo(1.5, 9);
  });

  it('is blocked by a bank deeper than a trench, and by a pump that stands higher than its inlet', async () => {
    const found = await ask({ grid: bank, from: [10, 30], to: [50, 30], role: 'drive' });
    if (found.kind !== 'blocked') throw new Error(found.kind);
    expect(found.excess).toBeCloseTo(1.5 - USUAL_ROUTE_SETTINGS.deepest, 9);
    expect(found.anyway?.cut?.below).toBeCloseTo(1.5, 9);
    // No trench lets water run up.
    expect(await ask({ grid: bank, from: [50, 30], to: [10, 30], role: 'drive' })).toMatchObject({
      kind: 'blocked',
      anyway: null,
    });
  });
});

describe('the asking', () => {
  const plane = gridOf(400, 400, (c) => 100 - 0.1 * c, { name: 'plane' });

  it('says which end has no height', async () => {
    const grid = gridOf(50, 50, (c, r) => (c > 35 && r > 35 ? null : 5));
    const found = await ask({ grid, from: [10, 10], to: [40, 40], role: 'delivery' });
    if (found.kind !== 'no-height') throw new Error(found.kind);
    expect((await cellOf(grid, found.at)).column).toBeCloseTo(40.5, 6);
  });

  it('reads coarser rather than more cells than it may, and says how much coarser', async () => {
    const asked = { grid: plane, from: [100, 100], to: [300, 300], role: 'gravity' } as const;
    const fine = routeOf(await ask(asked));
    const coarse = routeOf(await ask({ ...asked, settings: { mostCells: 20_000 } }));
    expect(fine.ground.coarser).toBe(1);
    expect(coarse.ground.coarser).toBe(3);
    expect(coarse.ground.cell.width / fine.ground.cell.width).toBeCloseTo(3, 6);
    // A plane's means lie on the plane.
    expect(coarse.length / fine.length).toBeCloseTo(1, 6);
  });

  it('stops when told to, and tells how it goes on', async () => {
    const rough = gridOf(400, 400, (c, r) => 100 - 0.01 * c + 8 * Math.sin(c / 9) * Math.sin(r / 7), { name: 'rough' });
    const lattice = await placed(rough);
    const request: RouteRequest = {
      from: { position: positionOf(lattice, 50, 50), height: 0 },
      to: { position: positionOf(lattice, 350, 350), height: 0 },
      role: 'delivery',
      settings: USUAL_ROUTE_SETTINGS,
    };
    const terrain = await terrainOf(rough);
    let followed = 0;
    let pauses = 0;
    await proposeRoute(request, terrain, {
      onProgress: (more) => {
        followed += more;
      },
      pause: async () => {
        pauses += 1;
      },
    });
    expect(followed).toBeGreaterThan(1000);
    expect(pauses).toBeGreaterThan(0);
    const stop = new AbortController();
    const stopped = proposeRoute(request, terrain, { signal: stop.signal, pause: async () => stop.abort() });
    await expect(stopped).rejects.toThrow();
  });
});
