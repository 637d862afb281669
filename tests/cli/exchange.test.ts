import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runCommand } from './run-command.ts';

const field = 'tests/plan/exchange/samples/field-day.gpx';
const plan = 'data/demo/plan.geojson';
const dem = 'data/demo/dem.tif';
const stored = JSON.parse(readFileSync(plan, 'utf8'));
const routeId: string = stored.features.find(
  (f: { geometry: { type: string } }) => f.geometry.type === 'LineString',
).id;

describe('the import command', () => {
  it('prints what a file holds as JSON', async () => {
    const { code, out, err } = await runCommand(['import', field, '--json']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({ file: field, format: 'gpx', problems: [] });
    expect(answer.items[0]).toMatchObject({
      key: 'item-1',
      kind: 'point',
      name: 'Spring box',
      suggested_role: 'source',
      positions: [[-40.0042, 38.0001]],
      heights_not_used_m: { count: 1, lowest: 104.62, highest: 104.62 },
    });
  });

  it('prints it as text, with what is wrong beneath its item', async () => {
    const { out } = await runCommand(['import', field]);
    expect(out).toMatch(/^item-2 {2}Pump & pit: Point at 38\.00080° N, 40\.00310° W; pump$/m);
    expect(out).toMatch(/^item-7 {2}Walk \(3\): Line that cannot be read; .*\n +line \d+, track: found no place;/m);
  });

  it.each([
    [['import'], /found no file/],
    [['import', 'package-lock.json', 'package.json'], /found package\.json, expected one file/],
    [['import', 'no-such.gpx'], /no-such\.gpx/],
    [['import', plan], /plan\.geojson: found a plan file, expected to be opened, not imported/],
    [['import', 'index.html'], /index\.html, line 1: found .*, expected well-formed XML/],
    [['import', dem], /dem\.tif: found/],
    [['import', field, '--xy', 'east-north'], /--xy: found east-north, expected lon-lat/],
  ])('%j is refused in one line', async (args, message) => {
    const { code, out, err } = await runCommand(args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(message);
    expect(err.trimEnd()).not.toContain('\n');
  });
});

describe('the export command', () => {
  it.each([
    ['gpx', /^<\?xml [^\n]+\n<gpx /, '</wpt>'],
    ['points-csv', /^name,role,"latitude, deg"/, '\r\n'],
    ['lines-csv', /^name,role,from,to,pipe,"length on the map, m"/, '\r\n'],
  ])('writes %s without an elevation file', async (format, start, part) => {
    const { code, out, err } = await runCommand(['export', plan, '--format', format]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(start);
    expect(out).toContain(part);
  });

  it('writes tanks and the profile of a line with one', async () => {
    const tanks = await runCommand(['export', plan, '--format', 'tanks-csv', '--dem', dem, '--units', 'us']);
    expect(tanks.out).toMatch(/^tank,choice,works\?,"lift, low, ft".*\r\n\S/);
    const profile = await runCommand(['export', plan, '--format', 'profile-svg', '--dem', dem, '--route', routeId]);
    expect(profile).toMatchObject({ code: 0, err: '' });
    expect(profile.out).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
    expect(profile.out).toContain(`data-route="${routeId}"`);
  });

  it.each([
    [['export', plan], /--format is missing/],
    [['export', plan, '--format', 'toString'], /--format: found toString, expected gpx/],
    [['export', plan, '--format', 'tanks-csv'], /--dem is missing/],
    [['export', plan, '--format', 'gpx', '--route', 'supply-1'], /expected it with profile-svg only/],
    [['export', plan, '--format', 'profile-svg', '--dem', dem, '--route', 'no-1'], /--route: found no-1/],
  ])('%j is refused in one line', async (args, message) => {
    const { code, out, err } = await runCommand(args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(message);
    expect(err.trimEnd()).not.toContain('\n');
  });
});
