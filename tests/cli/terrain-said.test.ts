import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { HEIGHTS, makeDem } from '../terrain/tiff-maker.ts';
import { runCommand } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'rillwright-said-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const unit = (text: string) => ({
  tag: 42112,
  type: 2,
  values: `<GDALMetadata><Item name="UNITTYPE" sample="0" role="unittype">${text}</Item></GDALMetadata>\0`,
});

function fileOf(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}
const undeclared = fileOf('undeclared.tif', makeDem());
const metres = fileOf('metres.tif', makeDem([unit('metre')]));
const broken = fileOf(
  'broken.tif',
  makeDem(
    [],
    HEIGHTS.map((height, i) => (i === 0 ? 12345 : height)),
  ),
);

// cs2cs, PROJ 9.1.1: 500001 E 4199999 N and 4199981 N in EPSG:32630 lie at 37.94758056° N and 37.94741833° N, 2.99998862° W.
const LINE = JSON.stringify({
  type: 'LineString',
  coordinates: [
    [-2.99998862, 37.94758056],
    [-2.99998862, 37.94741833],
  ],
});
const profile = (...args: string[]) => runCommand(['profile', 'line', '--dem', ...args], { line: LINE });

describe('what is known of the elevations was kept from the command line', () => {
  test('JSON answers hold the files, the CRS, the zero level, the unit, the accuracy and every note', async () => {
    const { code, out, err } = await profile(undeclared, '--json');
    expect(code).toBe(0);
    const { terrain } = JSON.parse(out);
    expect(terrain).toMatchObject({
      files: ['undeclared.tif'],
      crs: 'WGS 84 / UTM zone 30N',
      vertical: null,
      unit: 'metre',
      accuracy: 'lidar-1m-scrub',
    });
    expect(terrain.notes.map((note: { code: string }) => note.code)).toContain('vertical-unit-assumed');
    for (const { text } of terrain.notes) expect(text).toMatch(/\.$/);
    expect(err).toMatch(/metres were taken/);
  });

  test('text answers end with them', async () => {
    const { out } = await profile(undeclared);
    expect(out).toMatch(/\nElevations\n {2}.*metres were taken/);
  });

  test('beside a table they stand on standard error', async () => {
    const { out, err } = await profile(undeclared, '--csv');
    expect(out.split('\n')[0]).toBe('at_m,lon,lat,ground_m');
    expect(out).not.toMatch(/metres were taken/);
    expect(err).toMatch(/metres were taken/);
    expect(err).toMatch(/How far its heights are trusted/);
  });

  test('a proposed route tells them too', async () => {
    const ends = ['-2.99998862,37.94758056', '-2.99990000,37.94745000'];
    const { code, out } = await runCommand(['route', ...ends, '--role', 'drive', '--dem', undeclared, '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(out).terrain.notes.map((note: { code: string }) => note.code)).toContain('vertical-unit-assumed');
  });

  test('a hole that a spike makes is told with the line that passes it', async () => {
    const { code, out } = await profile(broken, '--json');
    expect(code).toBe(0);
    const { terrain, samples } = JSON.parse(out);
    expect(terrain.notes).toContainEqual(
      expect.objectContaining({ code: 'odd-heights', file: 'broken.tif', count: 1 }),
    );
    expect(samples[0].ground_m).toBeNull();
    expect(samples.at(-1).ground_m).toBeGreaterThan(290);
  });
});

describe('an answer for one file', () => {
  test('--dem-unit foot on declared metres made heights 0.3048 times as high: the file stands, and that is told', async () => {
    const { out, err } = await profile(metres, '--json', '--dem-unit', 'foot');
    expect(JSON.parse(out).samples[0].ground_m).toBeCloseTo(HEIGHTS[0] ?? 0, 2);
    expect(err).toMatch(/states its own unit of heights, metre; the answer foot was not taken/);
  });

  test('--dem-unit-instead comes before the file', async () => {
    const { out } = await profile(metres, '--json', '--dem-unit-instead', 'foot');
    expect(JSON.parse(out).samples[0].ground_m).toBeCloseTo(0.3048 * (HEIGHTS[0] ?? 0), 2);
  });

  test('follows its name and leaves the others alone', async () => {
    const { code, out } = await profile(`${undeclared},unit=foot,no-data=-5`, '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ terrain: { unit: 'foot' } });
    expect(JSON.parse(out).samples[0].ground_m).toBeCloseTo(0.3048 * (HEIGHTS[0] ?? 0), 2);
  });

  test('that is none is told with the file', async () => {
    const { code, err } = await profile(`${undeclared},unit=furlong`);
    expect(code).toBe(2);
    expect(err).toMatch(/unit: found furlong, expected metre, foot/);
  });
});

describe('slopes that no ground has', () => {
  test('end the command with 2, the evidence and the flag', async () => {
    const steep = fileOf(
      'steep.tif',
      makeDem(
        [],
        HEIGHTS.map((height) => 300 + 10 * (height - 300)),
      ),
    );
    const { code, err } = await profile(steep);
    expect(code).toBe(2);
    expect(err).toMatch(/--dem-unit .*As metres the ground here slopes \d+ % on the whole, as feet/);
    expect((await profile(steep, '--dem-unit', 'decimetre')).code).toBe(0);
  });
});
