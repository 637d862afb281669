import { describe, expect, test } from 'vitest';
import { runCommand } from './run-command.ts';

const DEM = 'data/demo/dem.tif';

const lineOf = (...coordinates: readonly (readonly number[])[]) => ({ type: 'LineString', coordinates });
const feature = (geometry: unknown) => JSON.stringify({ type: 'Feature', properties: {}, geometry });

/** Two places in the demo valley. */
const ENDS = [
  [-39.9974, 38.0018],
  [-39.9964, 38.0011],
] as const;

const profile = (text: string, ...more: string[]) =>
  runCommand(['profile', 'r.geojson', '--dem', DEM, ...more], { 'r.geojson': text });

describe('profile', () => {
  test('follows the ground at half a cell or finer, its length that of the geodesic', async () => {
    const { code, out } = await profile(feature(lineOf(...ENDS)), '--json');
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    // GeographicLib, `echo 38.0018 -39.9974 38.0011 -39.9964 | GeodSolve -i -p 3`: 117.265 m.
    expect(answer.horizontal_m).toBeCloseTo(117.265, 3);
    expect(answer.slope_m).toBeGreaterThan(answer.horizontal_m);
    const steps = answer.samples.slice(1).map((s: { at_m: number }, i: number) => s.at_m - answer.samples[i].at_m);
    expect(Math.max(...steps)).toBeLessThanOrEqual(0.5 + 1e-6);
    expect(answer.samples[0]).toMatchObject({
      at_m: 0,
      lon: ENDS[0][0],
      lat: ENDS[0][1],
      ground_m: expect.any(Number),
    });
    expect(answer.samples.at(-1).at_m).toBeCloseTo(answer.horizontal_m, 9);
  });

  test('says the same as JSON, as CSV, bare and in a collection', async () => {
    const json = JSON.parse((await profile(feature(lineOf(...ENDS)), '--json')).out);
    const rows = (await profile(JSON.stringify(lineOf(...ENDS)), '--csv')).out.trim().split('\n');
    expect(rows[0]).toBe('at_m,lon,lat,ground_m');
    expect(rows.length - 1).toBe(json.samples.length);
    const collection = `{"type":"FeatureCollection","features":[${feature(lineOf(...ENDS))}]}`;
    expect(JSON.parse((await profile(collection, '--json')).out)).toEqual(json);
  });

  test('has no height beyond the edge of the file, and says so', async () => {
    const { code, out } = await profile(feature(lineOf(ENDS[0], [-39.96, 38.0018])), '--json');
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(answer.samples.at(-1).ground_m).toBeNull();
    expect(answer.samples[0].ground_m).not.toBeNull();
  });

  test.each([
    ['no JSON', 'nonsense'],
    ['a point', feature({ type: 'Point', coordinates: [0, 0] })],
    ['one position', feature(lineOf([0, 0]))],
    ['a latitude of 95', feature(lineOf([0, 95], [1, 0]))],
    ['words for numbers', '{"type":"LineString","coordinates":[["a","b"],[1,2]]}'],
  ])('refuses %s in one line', async (_, text) => {
    const { code, out, err } = await profile(text);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^rillwright: r\.geojson: found .*, expected .*LineString.*\n$/);
  });
});
