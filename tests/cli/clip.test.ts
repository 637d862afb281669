import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { sourceOf } from '../terrain/fixture-files.ts';
import { runCommand } from './run-command.ts';

const PLAN = 'data/demo/plan.geojson';
const DEM = 'data/demo/dem.tif';

async function opened(bytes: Uint8Array) {
  const outcome = await openElevation(sourceOf('file.tif', bytes));
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

describe('clip', () => {
  test('writes the heights under the plan as they stand in the file, and says what it wrote', async () => {
    const { code, out, files } = await runCommand([
      'clip',
      PLAN,
      '--dem',
      DEM,
      '--out',
      'small.tif',
      '--margin',
      '60m',
    ]);
    expect(code).toBe(0);
    expect(out).toMatch(/^written +small\.tif\nfrom +dem\.tif\ncells +\d+ × \d+, each 1\.0.m × 1\.0.m\n/);
    expect(out).toMatch(/WGS 84 \/ UTM zone 24N[\s\S]+metre\n[\s\S]+MSL height/);
    const bytes = files.get('small.tif');
    if (bytes === undefined) throw new Error('found no file, expected small.tif');
    const [small, whole] = [await opened(bytes), await opened(new Uint8Array(readFileSync(DEM)))];
    const column = small.affine.c - whole.affine.c;
    const row = whole.affine.f - small.affine.f;
    const { columns, rows } = small;
    const clipped = await small.read({ column: 0, row: 0, columns, rows });
    const source = await whole.read({ column, row, columns, rows });
    expect(Buffer.from(clipped.known).equals(Buffer.from(source.known))).toBe(true);
    expect(Array.from(clipped.heights)).toEqual(Array.from(source.heights));
  });

  test('answers the plan as the whole file does', async () => {
    const { files } = await runCommand(['clip', PLAN, '--dem', DEM, '--out', 'small.tif', '--margin', '200m']);
    const small = files.get('small.tif');
    if (small === undefined) throw new Error('found no file, expected small.tif');
    // The spread of heights takes the size of a cell at the middle of the file, which differs by a part in a hundred million.
    const rounded = (_: string, value: unknown) => (typeof value === 'number' ? value.toPrecision(6) : value);
    const tanks = async (dem: string, bytes: Readonly<Record<string, Uint8Array>> = {}) =>
      JSON.parse((await runCommand(['assess', PLAN, '--dem', dem, '--json'], {}, bytes)).out, rounded).tanks;
    expect(await tanks('small.tif', { 'small.tif': small })).toEqual(await tanks(DEM));
  });

  test.each([
    [['clip', PLAN, '--dem', DEM], /--out is missing/],
    [
      ['clip', PLAN, '--dem', DEM, '--out', 'package.json'],
      /package\.json: found a file of that name, expected a new one/,
    ],
    [['clip', PLAN, '--dem', DEM, '--out', 'x.tif', '--margin', '-5m'], /--margin: found -5 m/],
  ])('%j is refused in one line', async (args, words) => {
    const { code, err } = await runCommand(args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });
});
