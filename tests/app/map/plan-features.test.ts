import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  cursorFeatures,
  pointFeatures,
  routeFeatures,
  turningFeatures,
  vertexFeatures,
} from '../../../src/app/map/plan-features.ts';
import type { Evaluation } from '../../../src/evaluation/result/evaluation.ts';
import { readPlan } from '../../../src/plan/file/read-plan.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import type { GroundLine } from '../../../src/terrain/grid/ground.ts';

function demoPlan(): Plan {
  const text = readFileSync(new URL('../../../data/demo/plan.geojson', import.meta.url), 'utf8');
  const read = readPlan(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

const GROUND: GroundLine = {
  at: Float64Array.of(0, 10, 20),
  lon: Float64Array.of(-40, -39.9999, -39.9998),
  lat: Float64Array.of(38, 38, 38),
  ground: Float64Array.of(1, 3, 2),
  known: Uint8Array.of(1, 1, 1),
  vertices: Uint32Array.of(0, 2),
  voids: [],
  horizontal: 20,
  slope: 20.5,
  doubt: { slope: new Float32Array(3), smoothing: new Float32Array(3) },
};

describe('what the map draws of a plan', () => {
  const plan = demoPlan();

  test('is every point at its place and every route through its vertices', () => {
    const points = pointFeatures(plan, null, new Set()).features;
    expect(points.map(({ properties }) => properties?.id)).toEqual(plan.points.map(({ id }) => id));
    expect(points[0]?.geometry).toEqual({
      type: 'Point',
      coordinates: [plan.points[0]?.position.lon, plan.points[0]?.position.lat],
    });
    const routes = routeFeatures(plan, null).features;
    expect(routes.map(({ properties }) => properties?.role)).toEqual(plan.routes.map(({ role }) => role));
  });

  test('marks what is selected and what a route being drawn may meet', () => {
    const [first] = plan.points;
    if (!first) throw new Error('points of the demo plan: found none');
    const marked = pointFeatures(plan, { kind: 'point', id: first.id }, new Set(['tank'] as const)).features;
    expect(marked.filter(({ properties }) => properties?.selected).map(({ properties }) => properties?.id)).toEqual([
      first.id,
    ]);
    const targets = marked.filter(({ properties }) => properties?.target);
    expect(targets.length).toBeGreaterThan(0);
    expect(targets.every(({ properties }) => properties?.role === 'tank')).toBe(true);
  });

  test('shows the inner vertices of the selected route only, numbered as in the route', () => {
    const route = plan.routes.find(({ vertices }) => vertices.length > 3);
    if (!route) throw new Error('a route with inner vertices: found none');
    expect(vertexFeatures(plan, null).features).toEqual([]);
    const shown = vertexFeatures(plan, { kind: 'route', id: route.id, vertex: 2 }).features;
    expect(shown.map(({ properties }) => properties?.index)).toEqual(
      route.vertices.map((_, index) => index).slice(1, -1),
    );
    expect(shown.find(({ properties }) => properties?.selected)?.properties?.index).toBe(2);
  });

  test('marks summits and sags where the evaluation found them', () => {
    const turnings = [{ kind: 'summit', at: 10, ground: 3, sample: 1 }] as const;
    const evaluation = {
      lines: [
        { id: 'up', turnings },
        { id: 'unknown', turnings },
      ],
    } as unknown as Evaluation;
    const { features } = turningFeatures(evaluation, new Map([['up', GROUND]]));
    expect(features).toEqual([
      { type: 'Feature', properties: { kind: 'summit' }, geometry: { type: 'Point', coordinates: [-39.9999, 38] } },
    ]);
  });

  test('puts the cursor of the profile on the route, and nowhere without its ground', () => {
    const grounds = new Map([['up', GROUND]]);
    const [dot] = cursorFeatures({ route: 'up', at: 15 }, grounds).features;
    expect(dot?.geometry).toMatchObject({ coordinates: [expect.closeTo(-39.99985, 9), 38] });
    expect(cursorFeatures({ route: 'up', at: 15 }, new Map()).features).toEqual([]);
    expect(cursorFeatures(null, grounds).features).toEqual([]);
  });
});
