import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { eventually } from './steps/eventually.mjs';
import { dropFiles, fileOf } from './steps/files.mjs';
import { mapAtRest, viewOf } from './steps/map.mjs';
import { calm, openEmpty } from './steps/planner.mjs';

const FIXTURES = 'tests/terrain/fixtures';
const PIXEL_SCALE = 33550;

/** A little-endian TIFF with its Y scale turned negative: TIFF 6.0 has the directory, GeoTIFF 1.1 the tag. */
function withNegativeScale({ bytes }, name) {
  const turned = Buffer.from(bytes);
  const directory = turned.readUInt32LE(4);
  for (let entry = directory + 2; entry < directory + 2 + 12 * turned.readUInt16LE(directory); entry += 12) {
    if (turned.readUInt16LE(entry) !== PIXEL_SCALE) continue;
    const y = turned.readUInt32LE(entry + 8) + 8;
    turned.writeDoubleLE(-turned.readDoubleLE(y), y);
    return { name, bytes: turned };
  }
  throw new Error(`${name}: found no ModelPixelScale`);
}

/** A plane of 60 × 50 cells in an ESRI ASCII grid; `cell` writes each height. */
function plane(name, cell) {
  const rows = Array.from({ length: 50 }, (_, row) =>
    Array.from({ length: 60 }, (_, column) => cell(160 + column * 0.5 + row * 0.3, column + row)).join(' '),
  );
  const head = 'ncols 60\nnrows 50\nxllcorner 412000\nyllcorner 4206000\ncellsize 10\n';
  return { name, bytes: Buffer.from(`${head}${rows.join('\n')}\n`) };
}

const question = (page) => page.getByRole('dialog', { name: 'One thing we need to know' });

/** What one try may take before the next; how many there are is the limit of the case. */
const oneTry = { timeout: 5000 };

async function choose(page, sentence, answer) {
  const dialog = question(page);
  await dialog.getByText(sentence).waitFor();
  await assertAccessible(page, `the question ${sentence}`);
  // The page may still be looking at the last answer: a choice made in that instant is made again.
  await eventually(async () => {
    if ((await dialog.getByText(sentence).count()) === 0) return;
    await dialog.getByRole('radio', { name: answer, exact: true }).check(oneTry);
    await dialog.getByRole('button', { name: 'Open' }).click(oneTry);
    await dialog.getByText(sentence).waitFor({ state: 'detached', ...oneTry });
  });
}

async function typeCode(page, code) {
  const field = question(page).getByRole('textbox', { name: 'EPSG code' });
  await field.fill(code);
  await field.press('Enter');
}

/** Nothing in these files says what their heights are in. */
const sayMetres = (page) => choose(page, /In which unit are these heights\?/, 'metres');

async function assertOpened(page) {
  await question(page).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
}

async function latitude(page) {
  await mapAtRest(page);
  return (await viewOf(page)).center[1];
}

export const cases = {
  'a file of three bands asks which one holds the heights and opens with the one chosen': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await dropFiles(page, [await fileOf(`${FIXTURES}/little-three-bands-pixel.tif`)]);
      await choose(page, /has 3 bands\. Which one holds the heights\?/, 'band 2');
      await sayMetres(page);
      await assertOpened(page);
    },
  },

  'a file with a negative Y scale asks which way its rows run and lies where the answer puts it': {
    options: calm,
    run: async ({ page, origin }) => {
      const file = withNegativeScale(await fileOf(`${FIXTURES}/little-float32-strips.tif`), 'turned.tif');
      const latitudes = [];
      for (const answer of ['at the north, as usual', 'at the south']) {
        await openEmpty(page, origin);
        await dropFiles(page, [file]);
        await choose(page, /turned\.tif does not say which way its rows run/, answer);
        // What was said of the file's unit is remembered; which way its rows run is asked each time.
        if (latitudes.length === 0) await sayMetres(page);
        await assertOpened(page);
        latitudes.push(await latitude(page));
      }
      // 19 rows of 2 m either side of the tie point: the middles lie 38 m apart, 110.99 km being a degree there.
      const apart = (latitudes[1] - latitudes[0]) * 110_990;
      assert.ok(Math.abs(apart - 38) < 2, `found ${apart} m`);
    },
  },

  'a number that may mean nothing is asked about after the CRS, and called nothing it is a hole': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await dropFiles(page, [plane('holes.asc', (height, at) => (at % 9 === 4 ? '-9999' : height.toFixed(2)))]);
      await typeCode(page, '32624');
      await sayMetres(page);
      await choose(
        page,
        /of the cells of holes\.asc hold -9999\. What does that number mean\?/,
        'there is no height there',
      );
      await assertOpened(page);
    },
  },

  'heights beyond any summit ask for their unit and open in centimetres; as metres they are refused': {
    options: calm,
    run: async ({ page, origin }) => {
      const file = plane('centimetres.asc', (height) => `${Math.round(100 * height)}`);
      await openEmpty(page, origin);
      await dropFiles(page, [file]);
      await typeCode(page, '32624');
      await choose(page, /centimetres\.asc holds numbers from 16000 to/, 'metres');
      await question(page).waitFor({ state: 'detached' });
      await page
        .getByText(/centimetres\.asc/)
        .first()
        .waitFor();
      assert.equal(await page.getByRole('button', { name: 'Other elevation…' }).count(), 0);
      await openEmpty(page, origin);
      await dropFiles(page, [file]);
      await typeCode(page, '32624');
      await choose(page, /centimetres\.asc holds numbers from 16000 to/, 'centimetres');
      await assertOpened(page);
    },
  },
};
