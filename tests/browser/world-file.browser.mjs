import assert from 'node:assert/strict';
import { join } from 'node:path';
import { root } from '../../scripts/lib/run-program.mjs';
import { eventually } from './steps/eventually.mjs';
import { chooseFiles, dropFiles, fileOf } from './steps/files.mjs';
import { mapAtRest, viewOf } from './steps/map.mjs';
import { colourShare } from './steps/map-colour.mjs';
import { calm, openEmpty } from './steps/planner.mjs';
import { plainPng } from './steps/tile-server.mjs';

/** Tall, so that the card that asks for an elevation file leaves most of the map free. */
const tall = { ...calm, viewport: { width: 1280, height: 1400 } };
const MAGENTA = [255, 0, 255];
const fixtures = join(root, 'tests', 'relief', 'fixtures');
const jpeg = await fileOf(join(fixtures, 'plain.jpg'), 'small.jpg');

/** 800 × 800 pixels of 1 m, turned by 30 degrees about its first pixel. */
const picture = { name: 'field.png', bytes: plainPng(800) };
const TURNED = '0.8660254037844387\n-0.5\n-0.5\n-0.8660254037844387\n412300\n4206600\n';
const world = { name: 'field.pgw', bytes: Buffer.from(TURNED) };

const refused = (page) => page.locator('[data-state="picture-refused"]');
const otherPicture = (page) => page.getByRole('button', { name: 'Other picture…' });

/** The card that asks for elevation lies over the middle of the map; it is put out of sight to look at what is below. */
async function uncoverMap(page) {
  await page.locator('.file-states').evaluate((node) => node.style.setProperty('visibility', 'hidden'));
}

async function answerCrs(page) {
  const dialog = page.getByRole('dialog', { name: 'One thing we need to know' });
  await dialog.getByRole('textbox', { name: 'EPSG code' }).fill('32624');
  await dialog.getByText(/UTM zone 24N: the middle of the file lies at/).waitFor();
  await dialog.getByRole('button', { name: 'Open' }).click();
  await dialog.waitFor({ state: 'detached' });
}

export const cases = {
  'GeoTIFF pictures packed as JPEG and with a palette open in the browser and are drawn': {
    options: tall,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      // 10 m × 9 m fill less than a hundredth of the map at its closest.
      // Mean colours by `gdalinfo -stats` (GDAL 3.6.2); of the palette, the entry next to the mean index.
      for (const [name, button, colour] of [
        ['palette.tif', 'Open picture…', [120, 175, 28]],
        ['jpeg.tif', 'Other picture…', [138, 133, 87]],
      ]) {
        await chooseFiles(page, button, [await fileOf(join(fixtures, name))]);
        await otherPicture(page).waitFor();
        await uncoverMap(page);
        await eventually(async () => assert.ok((await colourShare(page, colour)) > 0.0005));
      }
    },
  },

  'a picture and its world file may come one after the other; what is missing is said, and the coordinate system asked for':
    {
      options: tall,
      run: async ({ page, origin }) => {
        await openEmpty(page, origin);
        await dropFiles(page, [picture], 'picture');
        await refused(page).getByText('field.png waits for its other half').waitFor();
        await refused(page).getByText('Still missing: its world file, field.pgw or field.wld.').waitFor();
        await dropFiles(page, [world], 'picture');
        await answerCrs(page);
        await otherPicture(page).waitFor();
        await mapAtRest(page);
        await uncoverMap(page);
        await eventually(async () => assert.ok((await colourShare(page, MAGENTA)) > 0.05));
        const [lon, lat] = (await viewOf(page)).center;
        // Its middle by the six numbers: 412446.2 E 4206054.3 N; cs2cs EPSG:32624 EPSG:4326 gives 37.99793, -39.99719.
        assert.ok(Math.abs(lon + 39.99719) < 0.003 && Math.abs(lat - 37.99793) < 0.003, `found ${lon} ${lat}`);
      },
    },

  'a JPEG with its world file and its projection file opens at once, and a broken one is refused in one sentence': {
    options: tall,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      const beside = { name: 'small.jgw', bytes: Buffer.from('0.5\n0\n0\n-0.5\n412350.25\n4206599.75\n') };
      const projection = { name: 'small.prj', bytes: Buffer.from('EPSG:32624') };
      await chooseFiles(page, 'Open picture…', [jpeg, beside, projection]);
      await otherPicture(page).waitFor();
      const broken = { name: 'small.jpg', bytes: jpeg.bytes.subarray(0, 30) };
      await chooseFiles(page, 'Other picture…', [broken, beside, projection]);
      await refused(page).getByText('a JPEG or PNG with its size').waitFor();
      await refused(page).getByText('small.jpg stays in use.').waitFor();
      const wrong = { name: 'small.jgw', bytes: Buffer.from('0.5\n0\n0\n') };
      await chooseFiles(page, 'Other picture…', [jpeg, wrong, projection]);
      await refused(page).getByText('six lines with a number each').waitFor();
    },
  },
};
