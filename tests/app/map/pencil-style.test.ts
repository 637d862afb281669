import type { StyleSpecification } from 'maplibre-gl';
import { expect, test } from 'vitest';
import { withPencil } from '../../../src/app/map/route-pencil.ts';

const empty = { type: 'FeatureCollection' as const, features: [] };
const plan: StyleSpecification = {
  version: 8,
  sources: { routes: { type: 'geojson', data: empty } },
  layers: [{ id: 'routes', type: 'line', source: 'routes' }],
};
const drawing: StyleSpecification = {
  version: 8,
  sources: { ...plan.sources, 'rill-draw-linestring': { type: 'geojson', data: empty } },
  layers: [...plan.layers, { id: 'rill-draw-linestring', type: 'line', source: 'rill-draw-linestring' }],
};

test('a change of style leaves a line that is being drawn on the map', () => {
  expect(withPencil(drawing, plan)).toEqual(drawing);
});

test('a style without a pencil stays as it is, and nothing old comes back', () => {
  const old: StyleSpecification = { ...plan, sources: {}, layers: [{ id: 'paper', type: 'background' }] };
  expect(withPencil(old, plan)).toEqual(plan);
  expect(withPencil(undefined, plan)).toEqual(plan);
});
