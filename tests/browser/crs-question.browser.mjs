import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { dropFiles } from './steps/files.mjs';
import { mapAtRest, viewOf } from './steps/map.mjs';
import { calm, openEmpty, showPanel } from './steps/planner.mjs';

const COLUMNS = 60;
const ROWS = 50;
const CELL = 10;

/** A plane as an ESRI ASCII grid, which never states its coordinate reference system; `east` tiles it sideways. */
function plane(name, east) {
  const row = (at) =>
    Array.from({ length: COLUMNS }, (_, column) => (160 + column * 0.5 + at * 0.3).toFixed(2)).join(' ');
  const head = `ncols ${COLUMNS}\nnrows ${ROWS}\nxllcorner ${412_000 + east}\nyllcorner 4206000\ncellsize ${CELL}\n`;
  const bytes = Buffer.from(`${head}${Array.from({ length: ROWS }, (_, at) => row(at)).join('\n')}\n`);
  return { name, bytes };
}

const west = plane('west.asc', 0);
const east = plane('east.asc', COLUMNS * CELL);

export const cases = {
  'files without a coordinate reference system ask once for its code, say what each code makes of them, and open there':
    {
      options: calm,
      run: async ({ page, origin }) => {
        await openEmpty(page, origin);
        await dropFiles(page, [west, east]);
        const dialog = page.getByRole('dialog', { name: 'One thing we need to know' });
        await dialog.getByText('2 files (west.asc, east.asc) do not say').waitFor();
        const field = dialog.getByRole('textbox', { name: 'EPSG code' });
        assert.ok(await field.evaluate((node) => node === document.activeElement));
        await assertAccessible(page, 'the question for a coordinate reference system');
        for (const [typed, says] of [
          ['99999', /found EPSG:99999; expected a code of the EPSG registry/i],
          ['4326', /WGS 84: the file’s coordinates are no place in it/],
        ]) {
          await field.fill(typed);
          await dialog.getByText(says).waitFor();
          await field.press('Enter');
          assert.ok(await dialog.isVisible());
        }
        await field.fill('2154');
        await dialog.getByText(/Lambert-93: .* outside the area/).waitFor();
        await field.fill(' epsg:32624 ');
        await dialog.getByText(/UTM zone 24N: the middle of the file lies at 37\.999\d+° N, 39\.99\d+° W\.$/).waitFor();
        await field.press('Enter');
        // Nor do they say what their heights are in: one question for both, with the likely answer marked.
        await dialog.getByText(/In which unit are these heights\? As metres the ground here slopes/).waitFor();
        assert.ok(await dialog.getByRole('radio', { name: 'metres', exact: true }).isChecked());
        await assertAccessible(page, 'the question for a unit of heights');
        await dialog.getByRole('button', { name: 'Open' }).click();
        await dialog.waitFor({ state: 'detached' });
        await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
        await showPanel(page, 'Inputs');
        await page
          .getByText(/32624|UTM zone 24N/)
          .first()
          .waitFor();
        // The unit can be changed later.
        await page.getByText('metres, as you said of west.asc').waitFor();
        await mapAtRest(page);
        const [lon, lat] = (await viewOf(page)).center;
        // 412600 E 4206250 N in UTM zone 24N by cs2cs, PROJ 9.1.1: 39.99546° W, 37.99971° N.
        assert.ok(Math.abs(lon + 39.99546) < 0.002 && Math.abs(lat - 37.99971) < 0.002, `found ${lon} ${lat}`);
      },
    },

  'a question left unanswered leaves the planner as it was': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await dropFiles(page, [west]);
      const dialog = page.getByRole('dialog', { name: 'One thing we need to know' });
      await dialog.waitFor();
      await page.keyboard.press('Escape');
      await dialog.waitFor({ state: 'detached' });
      await page.getByRole('heading', { name: 'Bring the shape of the ground' }).waitFor();
    },
  },
};
