import assert from 'node:assert/strict';
import { calm, openDemo } from './steps/planner.mjs';

const telephone = { ...calm, viewport: { width: 390, height: 844 } };

const menuOf = (page, words) => page.locator('details.more').filter({ has: page.getByText(words, { exact: true }) });

/** Opens a menu from the keyboard, as a person without a pointer does. */
async function openMenu(page, words) {
  await page.getByText(words, { exact: true }).press('Enter');
  await assertOpen(page, words, true);
}

async function assertOpen(page, words, open) {
  assert.equal(
    await menuOf(page, words)
      .last()
      .evaluate((menu) => menu.open),
    open,
    `${words} is open: ${open}`,
  );
}

export const cases = {
  'a menu closes on Escape with the focus on it, on a click elsewhere, and stays while something is set in it': {
    options: telephone,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openMenu(page, 'Map and files');
      await page.getByLabel('Contours').uncheck();
      await assertOpen(page, 'Map and files', true);
      await page.keyboard.press('Escape');
      await assertOpen(page, 'Map and files', false);
      assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Map and files');
      await openMenu(page, 'Map and files');
      await page.locator('.plan-verdict').click();
      await assertOpen(page, 'Map and files', false);
    },
  },

  'a menu closes after a choice, and one within another closes alone on Escape': {
    options: telephone,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openMenu(page, 'Map and files');
      const chooser = page.waitForEvent('filechooser');
      await page.getByRole('button', { name: 'Other picture…' }).click();
      await chooser;
      await assertOpen(page, 'Map and files', false);
      await page.getByText('Menu', { exact: true }).press('Enter');
      await page.getByText('Import, export, print', { exact: true }).press('Enter');
      await page.keyboard.press('Escape');
      await assertOpen(page, 'Import, export, print', false);
      await assertOpen(page, 'Menu', true);
      await page.keyboard.press('Escape');
      await assertOpen(page, 'Menu', false);
    },
  },
};
