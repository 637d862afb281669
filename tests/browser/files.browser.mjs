import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { root } from '../../scripts/lib/run-program.mjs';
import { assertAccessible } from './steps/accessibility.mjs';
import { eventually } from './steps/eventually.mjs';
import { calm, courseItem, openDemo } from './steps/planner.mjs';

const demoPlan = JSON.parse(await readFile(join(root, 'data', 'demo', 'plan.geojson'), 'utf8'));

const openMenu = (page) => page.getByText('Import, export, print', { exact: true }).click();
const entry = (page, name) => page.getByRole('button', { name });

async function textOf(download) {
  const pieces = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece);
  return Buffer.concat(pieces).toString('utf8');
}

/** Hands the page's import a file of this text. */
async function bring(page, name, text) {
  await openMenu(page);
  const choosing = page.waitForEvent('filechooser');
  await entry(page, 'Import points and tracks…').click();
  await (await choosing).setFiles({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(text) });
}

const gpx = (points) =>
  `<?xml version="1.0"?><gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1">${points}</gpx>`;

export const cases = {
  'the points of the plan are taken along as GPX, each at its place': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openMenu(page);
      const waiting = page.waitForEvent('download');
      await entry(page, /GPX/).click();
      const download = await waiting;
      assert.match(download.suggestedFilename(), /\.gpx$/);
      const text = await textOf(download);
      for (const { geometry, properties } of demoPlan.features.filter((f) => f.geometry.type === 'Point')) {
        const [lon, lat] = geometry.coordinates;
        assert.ok(text.includes(`lat="${lat}" lon="${lon}"`), `${properties.name} at ${lat} ${lon}`);
        assert.ok(text.includes(properties.name));
      }
    },
  },

  'the site visit sheet opens ready to print, with what to measure and cautions, and closes again': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openMenu(page);
      await entry(page, 'Print the site visit sheet').click();
      const sheet = page.locator('.visit-sheet');
      await sheet.waitFor();
      const words = await sheet.innerText();
      assert.match(words, /Alder spring/);
      assert.match(words, /Measure the fall: how far/);
      assert.match(words, /Water hammer|pressure/i);
      assert.ok((await sheet.locator('svg').count()) > 0, 'a map or a profile is on the sheet');
      await assertAccessible(page, 'the site visit sheet');
      await page.keyboard.press('Escape');
      await sheet.waitFor({ state: 'detached' });
    },
  },

  'points of a GPX file are looked at, added in one step and taken out again by undo': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const point = '<wpt lat="38.0021" lon="-39.9968"><ele>512</ele><name>North tank</name></wpt>';
      await bring(page, 'walk.gpx', gpx(point));
      const dialog = page.getByRole('dialog', { name: 'What walk.gpx holds' });
      await dialog.waitFor();
      assert.match(await dialog.innerText(), /Height in the file/);
      await assertAccessible(page, 'the import');
      await dialog.getByRole('button', { name: /^Add the 1/ }).click();
      await courseItem(page, 'North tank').waitFor();
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await eventually(async () => assert.equal(await courseItem(page, 'North tank').count(), 0));
    },
  },

  'a file that holds no points is refused with what was found, and the plan stays': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await bring(page, 'broken.gpx', gpx('<wpt lat="38'));
      const dialog = page.getByRole('dialog', { name: 'broken.gpx was not read' });
      await dialog.waitFor();
      assert.match(await dialog.innerText(), /expected/);
      await dialog.getByRole('button', { name: 'OK', exact: true }).click();
      await courseItem(page, 'Alder spring').waitFor();
    },
  },
};
