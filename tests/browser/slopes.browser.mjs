import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { mapAtRest } from './steps/map.mjs';
import { calm, openDemo } from './steps/planner.mjs';

const legendOf = (page) => page.getByRole('figure', { name: /^Slope/ });

/** How the map looks, without what lies on it. */
async function mapPicture(page) {
  await mapAtRest(page);
  return (await page.locator('.map-frame canvas').screenshot()).toString('base64');
}

export const cases = {
  'slope colours come on request, from the keyboard, with a legend on the map, in both themes': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      assert.equal(await legendOf(page).count(), 0);
      const plain = await mapPicture(page);
      const control = page.getByRole('checkbox', { name: 'Show slopes' });
      await control.focus();
      await page.keyboard.press('Space');
      const words = await legendOf(page).textContent();
      for (const part of ['under 5 %', '5 to 15 %', '15 to 30 %', '30 to 60 %', 'over 60 %', 'by hand'])
        assert.ok(words.includes(part), `found ${words}, expected ${part}`);
      const coloured = await mapPicture(page);
      assert.notEqual(coloured, plain);
      await assertAccessible(page, 'slope colours');
      await page.getByRole('button', { name: 'Dark theme' }).click();
      await assertAccessible(page, 'slope colours in the dark');
      assert.notEqual(await mapPicture(page), coloured);
      await page.getByRole('button', { name: 'Light theme' }).click();
      await control.focus();
      await page.keyboard.press('Space');
      assert.equal(await legendOf(page).count(), 0);
      assert.equal(await mapPicture(page), plain);
    },
  },
};
