import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root, runNode } from '../../scripts/lib/run-program.mjs';
import { demoDem } from './steps/command-line.mjs';
import { openDemo } from './steps/planner.mjs';
import { planLike } from './steps/plans-made.mjs';

/** A sheet of a plan as the command line writes it. */
async function sheetOf(text, sheet, dem = demoDem) {
  const folder = await mkdtemp(join(tmpdir(), 'rillwright-'));
  try {
    const file = join(folder, 'plan.geojson');
    await writeFile(file, text);
    const ground = dem === null ? [] : ['--dem', dem];
    const { code, output } = await runNode([
      join(root, 'bin', 'rillwright.mjs'),
      ...['report', file, ...ground, '--sheet', sheet, '--date', '2026-05-31'],
    ]);
    assert.equal(code, 0, output);
    return output.slice(output.indexOf('<!doctype'));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Pages of a PDF, by its page objects (ISO 32000-1, 7.7.3.3). */
function pagesOf(pdf) {
  return (pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? []).length;
}

const FORMATS = ['A4', 'Letter'];
const SEEDS = Array.from({ length: 12 }, (_, i) => 31 + i);

export const cases = {
  'the owner gets two pages of any plan, on A4 and on Letter': async ({ page }) => {
    for (const seed of SEEDS) {
      await page.setContent(await sheetOf(await planLike(seed), 'owner'));
      assert.equal(await page.locator('.profile-figure').count(), 1, `profiles of plan ${seed}`);
      assert.equal(await page.locator('.plan-map').count(), 1, `maps of plan ${seed}`);
      for (const format of FORMATS) assert.equal(pagesOf(await page.pdf({ format })), 2, `plan ${seed} on ${format}`);
    }
  },

  'an owner without an elevation file gets two pages that say which file to open': async ({ page }) => {
    await page.setContent(await sheetOf(await planLike(7), 'owner', null));
    assert.match(await page.locator('.answer-lines').textContent(), /Do this first: open dem\.tif in the planner/);
    for (const format of FORMATS) assert.equal(pagesOf(await page.pdf({ format })), 2, format);
  },

  'every point of the plan is named on the owner’s map': async ({ page }) => {
    for (const seed of SEEDS.slice(0, 4)) {
      const text = await planLike(seed);
      await page.setContent(await sheetOf(text, 'owner'));
      const points = JSON.parse(text).features.filter(({ geometry }) => geometry.type === 'Point');
      const names = await page.locator('.plan-map .point-name').allTextContents();
      assert.equal(names.length, points.length, `plan ${seed}: ${names.join(', ')}`);
    }
  },

  'report and appendix are two documents, printed from the page': async ({ page, origin }) => {
    await openDemo(page, origin);
    for (const [button, sheet] of [
      ['Print the owner’s report', '.owner-report'],
      ['Print the engineer’s appendix', '.engineer-appendix'],
    ]) {
      await page.locator('.files summary').click();
      await page.getByRole('button', { name: button }).click();
      await page.locator(sheet).waitFor();
      const pages = pagesOf(await page.pdf({ format: 'A4' }));
      assert.ok(sheet === '.owner-report' ? pages === 2 : pages > 2, `${sheet}: ${pages} pages`);
      await page.getByRole('button', { name: 'Close', exact: true }).click();
      await page.locator(sheet).waitFor({ state: 'detached' });
    }
  },
};
