import { readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { openFileSource } from '../../src/cli/input/node-io.ts';
import { evaluate, evaluateAtRest } from '../../src/evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import type { Plan, TankPoint } from '../../src/plan/model/plan.ts';
import type { Ways } from '../../src/siting/fields/ways-from.ts';
import { USUAL_ROUTE_SETTINGS } from '../../src/siting/lines/route-settings.ts';
import { lineTo } from '../../src/siting/reach/line-to.ts';
import type { ReachMap } from '../../src/siting/reach/reach-map.ts';
import {
  accuracyOn,
  placesOf,
  type ReachStart,
  reachAims,
  reachMap,
  reachStart,
  reachWays,
} from '../../src/siting/reach/reach-of-plan.ts';
import { readSiteWindow, type SiteWindow } from '../../src/siting/reach/site-window.ts';
import type { GridTerrain } from '../../src/terrain/ground/ground-window.ts';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
import { gridOf, METRE_CELLS } from '../terrain/grid-in-memory.ts';
import { terrainOfGrids } from './terrain-of-grids.ts';

interface Reached {
  readonly plan: Plan;
  readonly terrain: GridTerrain;
  readonly site: SiteWindow;
  readonly start: ReachStart;
  readonly ways: readonly Ways[];
  readonly map: ReachMap;
}

async function reached(plan: Plan, terrain: GridTerrain): Promise<Reached> {
  const read = await readSiteWindow(terrain, { around: placesOf(plan), margin: 1500, mostCells: 4e6, avoid: [] });
  if (read.kind !== 'read') throw new Error('found no height, expected one');
  const { site } = read;
  const start = reachStart(plan, await groundOfPlan(plan, terrain), site);
  if (typeof start === 'string') throw new Error(start);
  const ways = reachAims(start).map((aim) => reachWays(site.ground, start.pump, aim));
  return { plan, terrain, site, start, ways, map: reachMap(site.ground, start, ways, accuracyOn(plan, terrain)) };
}

const demo = (name: string) => new URL(`../../data/demo/${name}`, import.meta.url).pathname;

async function demoReached(): Promise<Reached> {
  const read = readPlan(await readFile(demo('plan.geojson'), 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const file = await openFileSource(demo('dem.tif'));
  const opened = await openTerrain([file], { answers: {}, accuracy: read.value.terrain?.accuracy ?? null });
  if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
  const found = await reached(read.value, opened.terrain);
  await file.close();
  return found;
}

/** Rough made ground: a valley that falls to the south, hills on both sides, bumps of every size. */
function roughValley(c: number, r: number): number {
  const side = Math.abs(c - 150 - 12 * Math.sin(r / 31));
  const bumps =
    2.5 * Math.sin(c / 9 + r / 13) + 1.1 * Math.sin(c / 4.3 - r / 5.1) + 0.4 * Math.sin(c / 1.7) * Math.cos(r / 2.1);
  return 220 - 0.07 * r + Math.min(40, 0.002 * side * side) + bumps * Math.min(1, side / 25);
}

async function valleyReached(): Promise<Reached> {
  const terrain = await terrainOfGrids([gridOf(300, 300, roughValley, { affine: METRE_CELLS })]);
  const { plan } = await demoReachedOnce;
  const read = await terrain.groundWindow({ around: [terrain.about.outline[0] as never], margin: 1e4, mostCells: 1e6 });
  if (read.kind !== 'read') throw new Error('found no height, expected one');
  const at = (column: number, row: number) => {
    const position = read.window.positionAt({ column: column + 0.5, row: row + 0.5 });
    if (!position) throw new Error('found no position, expected one');
    return position;
  };
  const bed = (row: number) => Math.round(150 + 12 * Math.sin(row / 31));
  const places = { source: at(bed(60), 60), standpipe: at(bed(90), 90), pump: at(bed(112), 112) };
  const points = plan.points
    .filter((p) => p.role === 'source' || p.role === 'standpipe' || p.role === 'pump' || p.role === 'tank')
    .map((p) => ({ ...p, position: p.role === 'tank' ? at(250, 100) : places[p.role] }));
  const routes = plan.routes
    .filter((r) => r.role !== 'gravity' && points.some((p) => p.id === r.to))
    .map((r) => {
      const [from, to] = [r.from, r.to].map((id) => points.find((p) => p.id === id)?.position);
      return from && to ? { ...r, vertices: [from, to] } : r;
    });
  return reached({ ...plan, points, routes }, terrain);
}

const demoReachedOnce = demoReached();

/**
 * Cells drawn by chance, always the same, at which the pump runs for sure: the tenth percentile is no less than most of the
 * likely amount. Where the pressure wave only just reaches, percentiles to first order and by samples differ by more.
 */
function cellsOf({ map, ways }: Reached, count: number): number[] {
  let state = 5;
  const cells: number[] = [];
  while (cells.length < count) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const cell = Math.floor((state / 4294967296) * map.likely.length);
    if (
      (map.low[cell] as number) > 0.75 * (map.likely[cell] as number) &&
      (map.likely[cell] as number) > 0 &&
      (ways[map.way[cell] as number]?.length[cell] as number) > 5
    )
      cells.push(cell);
  }
  return cells;
}

/** The plan with one tank, on a cell, and the line proposed to it. */
function planTo({ plan, site, ways, map, start }: Reached, cell: number): Plan {
  const way = ways[map.way[cell] as number];
  const line = way ? lineTo(site.ground, way, cell, USUAL_ROUTE_SETTINGS) : [];
  const pump = plan.points.find((p) => p.role === 'pump');
  const tank = plan.points.find((p): p is TankPoint => p.role === 'tank');
  const delivery = plan.routes.find((r) => r.role === 'delivery');
  if (!pump || !tank || !delivery) throw new Error('found an unfinished plan, expected one with a delivery line');
  const vertices = line.flatMap((place, k) => (k === 0 ? pump.position : (site.positionAt(place) ?? [])));
  const position = vertices.at(-1) ?? tank.position;
  return {
    ...plan,
    points: [
      ...plan.points.filter((p) => p.role !== 'tank'),
      { ...tank, id: 'here', position, inletHeight: start.inletHeight },
    ],
    routes: [
      ...plan.routes.filter((r) => r.role !== 'delivery' && plan.points.find((p) => p.id === r.from)?.role !== 'tank'),
      { ...delivery, id: 'there', to: 'here', vertices, summits: 'vented' },
    ],
  };
}

const SHARE = 0.02;

describe.each([
  ['the demo’s valley', () => demoReachedOnce],
  ['rough made ground', valleyReached],
])('what the reach map shows on %s', (_, make) => {
  let found: Reached;
  beforeAll(async () => {
    found = await make();
  });

  it('lies within 2 % of the plan with a tank there and its proposed line', async () => {
    for (const cell of cellsOf(found, 40)) {
      const plan = planTo(found, cell);
      const { tanks } = evaluate(plan, await groundOfPlan(plan, found.terrain));
      const delivery = tanks[0]?.line?.delivery?.likely ?? 0;
      const shown = found.map.likely[cell] as number;
      expect(shown / delivery, `cell ${cell}`).toBeGreaterThan(1 - SHARE);
      expect(shown / delivery, `cell ${cell}`).toBeLessThan(1 + SHARE / 2);
    }
  });

  it('has the range of that plan’s samples', async () => {
    for (const cell of cellsOf(found, 6)) {
      const plan = planTo(found, cell);
      const { tanks } = evaluateAtRest(plan, await groundOfPlan(plan, found.terrain));
      const delivery = tanks[0]?.line?.delivery;
      if (!delivery) throw new Error('found no delivery, expected one');
      expect((found.map.likely[cell] as number) / delivery.likely, `cell ${cell}`).toBeCloseTo(1, 1);
      expect((found.map.low[cell] as number) / delivery.low, `cell ${cell}`).toBeCloseTo(1, 1);
      expect((found.map.high[cell] as number) / delivery.high, `cell ${cell}`).toBeCloseTo(1, 1);
    }
  });
});
