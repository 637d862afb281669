import { readFileSync } from 'node:fs';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { movePoint } from '../../src/plan/edits/edit-points.ts';
import { addMeasurement } from '../../src/plan/edits/edit-water.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { readBundle, writeBundle } from '../../src/report/exchange/field-bundle.ts';
import { runCommand } from './run-command.ts';

const PLAN = 'data/demo/plan.geojson';
const DEM = 'data/demo/dem.tif';

async function bundled(): Promise<Uint8Array<ArrayBuffer>> {
  const { code, err, files } = await runCommand(['bundle', PLAN, '--dem', DEM, '--out', 'field.zip']);
  expect(err).toBe('');
  expect(code).toBe(0);
  const bytes = files.get('field.zip');
  if (bytes === undefined) throw new Error('found no file, expected field.zip');
  return new Uint8Array(bytes);
}

describe('a plan with its ground in one file', () => {
  test('gives the answer that plan and elevation give, to the digit, and is the same bytes each time', async () => {
    const bytes = await bundled();
    expect(bytes.length).toBeLessThan(10_000_000);
    const whole = await runCommand(['assess', PLAN, '--dem', DEM, '--json']);
    const small = await runCommand(['assess', 'field.zip', '--json'], {}, { 'field.zip': bytes });
    expect(small.err).toBe(whole.err);
    expect(small.out).toBe(whole.out);
    expect(Buffer.from(await bundled()).equals(Buffer.from(bytes))).toBe(true);
  });

  test('is taken by other commands in place of a plan', async () => {
    const bytes = await bundled();
    const report = ['report', '--date', '2026-05-31'];
    const whole = await runCommand([...report, PLAN, '--dem', DEM]);
    const small = await runCommand([...report, 'field.zip'], {}, { 'field.zip': bytes });
    expect(small.code).toBe(0);
    expect(small.out).toBe(whole.out);
  });

  test('says what is not inside', async () => {
    const bytes = await bundled();
    const about = Buffer.from(unzipSync(bytes)['about.txt'] ?? []).toString();
    expect(about).toMatch(/What is not inside:\n- no aerial picture\n/);
    const read = readBundle('field.zip', bytes);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const without = writeBundle({ ...read.value, heights: [] });
    const { code, err } = await runCommand(['assess', 'field.zip'], {}, { 'field.zip': without });
    expect(code).toBe(2);
    expect(err).toMatch(/field\.zip: found no elevation inside, expected --dem/);
    const answered = await runCommand(['assess', 'field.zip', '--dem', DEM, '--json'], {}, { 'field.zip': without });
    expect(answered.out).toBe((await runCommand(['assess', PLAN, '--dem', DEM, '--json'])).out);
  });

  test.each([
    ['another archive', zipSync({ 'dem.tif': new Uint8Array(9) }), /an archive of another kind/],
    ['no archive', new Uint8Array(40), /an archive of another kind/],
    [
      'a table that is none',
      zipSync({ 'field.json': strToU8('{"format": 1}') }),
      /a field\.json that is not understood/,
    ],
    [
      'a later version',
      zipSync({
        'field.json': strToU8('{"format":"rillwright-field","version":2,"margin_m":null,"heights":[],"picture":null}'),
      }),
      /not understood \(version\), expected one of version 1/,
    ],
    [
      'an entry that leads out of it',
      zipSync({
        'field.json': strToU8(
          '{"format":"rillwright-field","version":1,"margin_m":null,"heights":[],"picture":{"entries":["picture/../../x"],"epsg":4326}}',
        ),
      }),
      /not understood \(picture\.entries\.0\)/,
    ],
    [
      'no plan',
      zipSync({
        'field.json': strToU8('{"format":"rillwright-field","version":1,"margin_m":null,"heights":[],"picture":null}'),
      }),
      /plan\.geojson: found no such file inside/,
    ],
  ])('that is %s is refused in one line', async (_, bytes, words) => {
    const { code, err } = await runCommand(['assess', 'field.zip'], {}, { 'field.zip': bytes });
    expect(code).toBe(2);
    expect(err).toMatch(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  test('that is cut off is refused in one line', async () => {
    const bytes = await bundled();
    for (const share of [0.001, 0.3, 0.9, 0.999]) {
      const cut = bytes.slice(0, Math.floor(bytes.length * share));
      const { code, err } = await runCommand(['assess', 'field.zip'], {}, { 'field.zip': cut });
      expect(code).toBe(2);
      expect(err.trimEnd().split('\n')).toHaveLength(1);
    }
  });
});

describe('what comes back', () => {
  async function returned(): Promise<Uint8Array> {
    const read = readBundle('field.zip', await bundled());
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const { plan } = read.value;
    const [source, tank] = [
      plan.points.find(({ role }) => role === 'source'),
      plan.points.find(({ role }) => role === 'tank'),
    ];
    if (!source || !tank) throw new Error('found a demo without source and tank');
    const level = { kind: 'difference', from: source.id, to: tank.id, rise: 12.34, plusMinus: 0.03 } as const;
    const levelled = addMeasurement(plan, level);
    const { lon, lat } = tank.position;
    const moved = levelled.ok ? movePoint(levelled.value.plan, tank.id, { lon: lon + 1e-4, lat }) : levelled;
    if (!moved.ok) throw new Error(JSON.stringify(moved.problems));
    return writeBundle({ ...read.value, plan: moved.value.plan });
  }

  test('is listed, and taken line by line', async () => {
    const back = { 'back.zip': await returned() };
    const listed = await runCommand(['merge', PLAN, 'back.zip'], {}, back);
    expect(listed.out).toMatch(/^ {2}1 {2}\S.* moved by 8\.8.m\n {2}2 {2}New: level, .*12\.34.m .*±0\.03.m.*\n$/);
    const { code, out } = await runCommand(['merge', PLAN, 'back.zip', '--take', '2'], {}, back);
    expect(code).toBe(0);
    const [merged, home] = [readPlan(out), readPlan(readFileSync(PLAN, 'utf8'))];
    if (!merged.ok || !home.ok) throw new Error('found a plan that cannot be read');
    expect(merged.value.points).toEqual(home.value.points);
    expect(merged.value.measurements).toHaveLength(home.value.measurements.length + 1);
    const whole = await runCommand(['merge', PLAN, 'back.zip', '--take', 'all', '--out', 'merged.geojson'], {}, back);
    expect(whole.out).toBe('written merged.geojson: 2 of 2 changes taken\n');
  });

  test('is nothing where nothing was changed', async () => {
    const { out } = await runCommand(['merge', PLAN, 'field.zip'], {}, { 'field.zip': await bundled() });
    expect(out).toBe('Nothing came back that is not so at home.\n');
  });

  test.each([
    [['merge', PLAN], /found 1 files, expected the plan at home and the one that came back/],
    [['merge', PLAN, PLAN, '--take', '3'], /--take: found 3, expected all or numbers from 1 to 0/],
  ])('%j is refused in one line', async (args, words) => {
    const { code, err } = await runCommand(args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });
});

describe('a code on the visit sheet', () => {
  test('is there where the address of the planner is said, and only there', async () => {
    const sheet = ['report', PLAN, '--sheet', 'visit', '--date', '2026-05-31'];
    const without = await runCommand(sheet);
    expect(without.out).not.toMatch(/code-figure" viewBox/);
    const { code, out } = await runCommand([...sheet, '--planner', 'https://planner.example/p/']);
    expect(code).toBe(0);
    expect(out).toMatch(/class="code-figure" viewBox="0 0 \d+ \d+" role="img"/);
    expect(out).toMatch(/at https:\/\/planner\.example\/p\/, without sending it anywhere/);
    expect(out).not.toMatch(/machine’s own/);
    const here = await runCommand([...sheet, '--planner', 'http://127.0.0.1:47473/']);
    expect(here.out).toMatch(/machine’s own: other devices cannot open it/);
  });

  test.each(['planner.example', 'https://planner.example/#x'])('%s is refused as an address', async (address) => {
    const { code, err } = await runCommand(['report', PLAN, '--sheet', 'visit', '--planner', address]);
    expect(code).toBe(2);
    expect(err).toMatch(/--planner: found/);
  });
});
