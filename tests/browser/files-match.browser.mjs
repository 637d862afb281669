import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { demoDem, demoPicture, demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { chooseFiles, dropFiles, fileOf } from './steps/files.mjs';
import { calm, openDemo, openEmpty, reckoned, savedPlan } from './steps/planner.mjs';

/** A grid of heights in degrees around a place, as an ESRI ASCII grid with the CRS beside it. */
function gridAt([lon, lat], name) {
  const cells = 60;
  const rows = Array.from({ length: cells }, (_, row) =>
    Array.from({ length: cells }, (_, col) => 100 + row + col / 10),
  );
  const head = `ncols ${cells}\nnrows ${cells}\nxllcorner ${lon}\nyllcorner ${lat}\ncellsize 0.0001\nNODATA_value -9999\n`;
  const prj =
    'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]';
  return [
    { name: `${name}.asc`, bytes: Buffer.from(head + rows.map((row) => row.join(' ')).join('\n')) },
    { name: `${name}.prj`, bytes: Buffer.from(prj) },
  ];
}

const notice = (page, kind) => page.locator(`[data-notice="${kind}"]`);

/** Brings elevation that says nothing of its unit, and takes the likely one, metres. */
async function bring(page, files) {
  await dropFiles(page, files);
  const asked = page.locator('dialog[open]');
  await asked.waitFor();
  await asked.getByRole('button', { name: 'Open', exact: true }).click();
  await asked.waitFor({ state: 'detached' });
}

export const cases = {
  'elevation that lies elsewhere is told with its distance, and undone by undo': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await bring(page, gridAt([-38, 38], 'elsewhere'));
      const said = notice(page, 'plan-elsewhere');
      // From 39.993° W to 38° W at 38° N: 1.993 × 87.8 km.
      await eventually(async () => assert.match(await said.textContent(), /17\d.*away from elsewhere\.asc/));
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await said.waitFor({ state: 'detached' });
      await reckoned(page);
    },
  },

  'a plan made on another file is never reckoned on the open one in silence': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const plan = JSON.parse(await readFile(demoPlan, 'utf8'));
      plan.rillwright.terrain.files = ['survey-of-2021.tif'];
      plan.rillwright.name = 'Made on another file';
      await dropFiles(page, [{ name: 'other.geojson', bytes: Buffer.from(JSON.stringify(plan)) }]);
      const said = notice(page, 'other-ground');
      await said.waitFor();
      assert.match(await said.textContent(), /made on survey-of-2021\.tif.*come from dem\.tif/);
      await said.getByRole('button', { name: 'Use dem.tif for it' }).click();
      await said.waitFor({ state: 'detached' });
      assert.deepEqual(JSON.parse(await savedPlan(page)).rillwright.terrain.files, ['dem.tif']);
    },
  },

  'a picture of another place does not take the good one away unasked': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await bring(page, gridAt([-38, 38], 'elsewhere'));
      await dropFiles(page, [await fileOf(demoPicture)], 'picture');
      const said = notice(page, 'stray-picture');
      await said.waitFor();
      assert.match(await said.textContent(), /picture\.tif lies 17\d.*away/);
      assert.equal(await page.getByRole('button', { name: 'Other picture…' }).count(), 0);
      await said.getByRole('button', { name: 'Close it' }).click();
      await said.waitFor({ state: 'detached' });
      assert.equal(await page.getByRole('button', { name: 'Open picture…' }).count(), 1);
    },
  },

  'a saved plan shows its last answer without its elevation file, marked as kept, and names the file': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const sentence = await page.locator('.plan-verdict .plan-sentence').textContent();
      const text = await savedPlan(page);
      // Whether the browser kept what it was handed the page cannot know, and asks.
      page.on('dialog', (dialog) => dialog.accept());
      await page.getByRole('button', { name: 'New', exact: true }).click();
      await page.getByRole('heading', { name: 'Bring the shape of the ground' }).waitFor();
      assert.equal(await page.locator('.plan-verdict').count(), 0);
      await dropFiles(page, [{ name: 'saved.geojson', bytes: Buffer.from(text) }]);
      const kept = page.locator('.plan-verdict[data-kept="true"]');
      await kept.waitFor();
      assert.equal((await kept.locator('.plan-sentence').textContent()).trim(), sentence.trim());
      assert.match(await kept.textContent(), /Kept from \d{4}-\d{2}-\d{2}\. .*open dem\.tif/);
      await chooseFiles(page, 'Choose dem.tif…', [await fileOf(demoDem)]);
      await reckoned(page);
      assert.equal(await page.locator('.plan-verdict .plan-sentence').textContent(), sentence);
    },
  },

  'New is empty, and Help leads back to the demo': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByRole('button', { name: 'New', exact: true }).click();
      await page.getByRole('heading', { name: 'Bring the shape of the ground' }).waitFor();
      assert.equal(await page.getByRole('button', { name: 'Open picture…' }).count(), 1);
      await page.getByRole('button', { name: 'Help', exact: true }).click();
      await page.getByRole('button', { name: 'Open the demo valley' }).click();
      await reckoned(page);
    },
  },
};
