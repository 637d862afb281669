import { assertAccessible } from './steps/accessibility.mjs';
import { demoDem } from './steps/command-line.mjs';
import { dropFiles, fileOf } from './steps/files.mjs';
import { courseItem, openDemo, openEmpty, showPanel } from './steps/planner.mjs';

const wide = { width: 1280, height: 800 };
const telephone = { width: 390, height: 844 };

/** Every panel of the demo, with a point and a line selected. */
async function panels(page, narrow) {
  await assertAccessible(page, 'demo, answer');
  for (const name of ['Tank behind the knoll', 'Supply line']) {
    if (narrow) await showPanel(page, 'Parts');
    await courseItem(page, name).click();
    await showPanel(page, 'Selected');
    await assertAccessible(page, `selected: ${name}`);
  }
  for (const name of narrow ? ['Parts', 'Inputs', 'Profile'] : ['Inputs']) {
    await showPanel(page, name);
    await assertAccessible(page, name);
  }
}

async function help(page) {
  await page.keyboard.press('?');
  await page.getByRole('dialog', { name: 'How to use the planner' }).waitFor();
  await assertAccessible(page, 'help');
  await page.getByRole('button', { name: 'Words', exact: true }).click();
  await page.getByLabel('Look for a word').fill('summit');
  await page.getByRole('definition').filter({ hasText: 'Air gathers there' }).waitFor();
  await page.getByText('Where the animals drink').waitFor({ state: 'detached' });
  await assertAccessible(page, 'words');
  await page.getByRole('button', { name: 'Close' }).click();
}

async function refusal(page) {
  const { bytes } = await fileOf(demoDem);
  await dropFiles(page, [{ name: 'half-copied.tif', bytes: bytes.subarray(0, 4000) }]);
  await page.locator('[data-state="elevation-refused"]').waitFor();
  await assertAccessible(page, 'refused file');
}

/** Demo, refused file and empty planner in one width and one set of colours. */
function walk(viewport, colorScheme) {
  const narrow = viewport.width < 600;
  return {
    options: { reducedMotion: 'reduce', viewport, colorScheme },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await panels(page, narrow);
      await page.locator('h1').click();
      await help(page);
      await refusal(page);
      await openEmpty(page, origin);
      await assertAccessible(page, 'empty');
    },
  };
}

export const cases = {
  'axe finds nothing wrong on the wide page in light colours': walk(wide, 'light'),
  'axe finds nothing wrong on the wide page in dark colours': walk(wide, 'dark'),
  'axe finds nothing wrong on a telephone in light colours': walk(telephone, 'light'),
  'axe finds nothing wrong on a telephone in dark colours': walk(telephone, 'dark'),
};
