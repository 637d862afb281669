import { readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { runCommand } from './run-command.ts';

const DEM = 'data/demo/dem.tif';

/** The demo with a weak spring and a standpipe that is cut short. */
async function worse(): Promise<string> {
  const plan = JSON.parse(readFileSync('data/demo/plan.geojson', 'utf8'));
  plan.rillwright.yield_readings = [{ kind: 'stated', flow_L_per_min: 7, plus_minus_L_per_min: 0.7 }];
  for (const { properties } of plan.features) if (properties.role === 'standpipe') properties.top_height_m = 0.7;
  const path = join(await mkdtemp(join(tmpdir(), 'mend-')), 'plan.geojson');
  writeFileSync(path, JSON.stringify(plan));
  return path;
}

describe('mend', () => {
  let path = '';

  beforeAll(async () => {
    path = await worse();
  });

  test('writes a plan that runs, and says what it did', async () => {
    const before = JSON.parse((await runCommand(['assess', path, '--dem', DEM, '--json'])).out);
    expect(before.answer.runs.verdict).toBe('fails');
    expect(before.answer.arrives.delivery_L_per_day.likely).toBe(0);
    expect(before.answer.arrives.if_running_L_per_day.likely).toBeGreaterThan(0);
    const { code, out, err } = await runCommand(['mend', path, '--dem', DEM]);
    expect(code).toBe(0);
    expect(err).toMatch(/^Before: It will not run as drawn: too little water for the pump/);
    expect(err).toMatch(/\n {2}\d\. .*: enough water for the pump/);
    expect(err).toMatch(/\nAfter: It will run/);
    const mended = join(await mkdtemp(join(tmpdir(), 'mend-')), 'mended.geojson');
    writeFileSync(mended, out);
    const after = JSON.parse((await runCommand(['assess', mended, '--dem', DEM, '--json'])).out);
    expect(after.answer.runs.verdict).toBe('holds');
    expect(after.answer.arrives.delivery_L_per_day.likely).toBeGreaterThan(0);
  });

  test('leaves the file of the plan as it is', async () => {
    const text = readFileSync(path, 'utf8');
    const out = join(await mkdtemp(join(tmpdir(), 'mend-')), 'out.geojson');
    expect((await runCommand(['mend', path, '--dem', DEM, '--out', out])).code).toBe(0);
    expect(readFileSync(path, 'utf8')).toBe(text);
  });

  test('answers as JSON with steps, what is left and why, the answer before and after, and the plan', async () => {
    const { out } = await runCommand(['mend', path, '--dem', DEM, '--json']);
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({ format: 'rillwright/mended', version: 1, before: { runs: { verdict: 'fails' } } });
    expect(answer.steps[0]).toMatchObject({
      finding: 'source-short',
      says: expect.arrayContaining([expect.any(String)]),
    });
    expect(answer.plan.type).toBe('FeatureCollection');
    for (const { because } of answer.left)
      expect(['another-place', 'to-be-measured', 'breaks-another']).toContain(because);
  });
});
