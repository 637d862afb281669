import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root, runNode } from '../../../scripts/lib/run-program.mjs';

export const demoPlan = join(root, 'data', 'demo', 'plan.geojson');
export const demoDem = join(root, 'data', 'demo', 'dem.tif');
export const demoPicture = join(root, 'data', 'demo', 'picture.tif');

/** What the command line answers about a plan file on an elevation file. */
export async function assess(plan, dem) {
  const { code, output } = await runNode(['bin/rillwright.mjs', 'assess', plan, '--dem', dem, '--json']);
  assert.equal(code, 0, output);
  return JSON.parse(output);
}

/** The same about the text of a plan that the page saved. */
export async function assessText(text, dem) {
  const folder = await mkdtemp(join(tmpdir(), 'rillwright-'));
  try {
    const file = join(folder, 'saved.geojson');
    await writeFile(file, text);
    return await assess(file, dem);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
