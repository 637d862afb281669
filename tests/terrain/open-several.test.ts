import { expect, test } from 'vitest';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
import { sourceOf } from './fixture-files.ts';
import { HEIGHTS, makeDem, UTM_KEYS } from './tiff-maker.ts';

/** A file of invented heights, by its name with the code of its vertical CRS, in so many of its units a metre, so far east. */
function fileOf(name: string, vertical: number, { perMetre = 1, east = 0 } = {}) {
  const keys = [...UTM_KEYS.slice(0, 3), 4, ...UTM_KEYS.slice(4), 4096, 0, 1, vertical];
  const bytes = makeDem(
    [
      { tag: 34735, type: 3, values: keys },
      { tag: 33922, type: 12, values: [0, 0, 0, 500000 + east, 4200000, 0] },
    ],
    HEIGHTS.map((height) => height * perMetre),
  );
  return sourceOf(name, bytes);
}

const open = (...files: readonly ReturnType<typeof fileOf>[]) => openTerrain(files, { answers: {}, accuracy: null });

// Names and units of the codes: EPSG Geodetic Parameter Dataset v10.076.

test('files above one zero open together whatever their units', async () => {
  const opened = await open(
    fileOf('metres.tif', 5703),
    fileOf('feet.tif', 6360, { perMetre: 3937 / 1200, east: 24 }),
    fileOf('first-code.tif', 5103, { east: 48 }),
  );
  expect(opened.kind).toBe('opened');
  if (opened.kind !== 'opened') return;
  expect(opened.terrain.about.verticalDatum).toBe('NAVD88 height');
  const windows = opened.sources.map(({ grid }) => grid.read({ column: 0, row: 0, columns: 1, rows: 1 }));
  for (const { heights } of await Promise.all(windows)) expect(heights[0]).toBeCloseTo(HEIGHTS[0] ?? Number.NaN, 4);
});

test('files above different zeros are refused with both names: no difference of their heights means anything', async () => {
  const opened = await open(fileOf('country.tif', 5703), fileOf('world.tif', 3855, { east: 24 }));
  expect(opened).toEqual({
    kind: 'refused',
    problems: [
      {
        code: 'terrain-datums-differ',
        path: 'world.tif',
        found: 'EGM2008 height',
        expected: 'NAVD88 height, as in country.tif',
      },
    ],
  });
});
