import { expect, test } from 'vitest';
import { accuracyFor, OWN_CONSTANTS } from '../../src/evaluation/site/heights.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import type { TerrainAbout } from '../../src/terrain/grid/ground.ts';
import { lidar } from './made-ground.ts';
import { workingPlan } from './made-plan.ts';

const about: TerrainAbout = {
  files: ['made.tif'],
  crs: 'EPSG:32624',
  cell: { width: 1, height: 1 },
  size: { columns: 10, rows: 10 },
  outline: [],
  verticalUnit: 'metre',
  verticalDatum: null,
  accuracy: lidar,
  notes: [],
};

const withTerrain = (terrain: Plan['terrain']): Plan => ({ ...workingPlan, terrain });

test('a file’s own class serves until the user chooses another or types constants in', () => {
  expect(accuracyFor(withTerrain(null), about)).toBe(lidar);
  const chosen = accuracyFor(withTerrain({ files: ['made.tif'], accuracy: 'lidar-1m-scrub', constants: null }), about);
  expect(chosen.id).toBe('lidar-1m-scrub');
  const constants = { nugget: 0.3, near: 0.4, nearRange: 90, far: 0.5, farRange: 900, placement: 2 };
  const own = accuracyFor(withTerrain({ files: ['made.tif'], accuracy: 'lidar-1m-scrub', constants }), about);
  expect(own).toMatchObject({ ...constants, id: OWN_CONSTANTS, cell: 1 });
  expect(own.smoothingDoubt).toBe(chosen.smoothingDoubt);
  const surer = { ...constants, smoothingDoubt: 0.5 };
  expect(accuracyFor(withTerrain({ files: ['made.tif'], accuracy: null, constants: surer }), about)).toMatchObject(
    surer,
  );
});
