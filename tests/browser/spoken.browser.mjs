import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { calm, openDemo } from './steps/planner.mjs';

/** The accessibility tree of a part of the page, as text: what a screen reader has to say. */
const tree = (scope) => scope.ariaSnapshot();

export const cases = {
  'a screen reader hears a sentence for each tank, and its bar by name': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const heard = await tree(page.locator('table.tanks'));
      assert.match(heard, /Spur tank, to be measured: \d+ litres a day, between \d+ and \d+\./);
      assert.match(heard, /Shoulder tank, enough arrives: \d+ litres a day, between \d+ and \d+\./);
      assert.match(heard, /img "Bar from \d+ litres a day to \d+ litres a day; needed are \d+ litres a day"/);
      // The figures for the eye are not said a second time.
      assert.doesNotMatch(heard, /L\/day/);
      await assertAccessible(page, 'tanks for the ear');
    },
  },

  'the first stop of the Tab key leads past head and map to the answers': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.keyboard.press('Tab');
      const link = page.getByRole('button', { name: 'Skip to the answers' });
      assert.ok(await link.evaluate((element) => element === document.activeElement));
      const { y } = await link.boundingBox();
      assert.ok(y >= 0, `found the link at ${y} px, expected it in sight`);
      await assertAccessible(page, 'the skip link in sight');
      await page.keyboard.press('Enter');
      assert.equal(await page.evaluate(() => document.activeElement?.id), 'answers');
      assert.equal(await page.evaluate(() => location.hash), '');
    },
  },

  'every image, bar and button of the page has a name': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const lines = (await tree(page.locator('body'))).split('\n');
      const nameless = lines.filter((line) =>
        /^\s*- (?:img|button|link|progressbar|dialog|textbox|combobox|checkbox)(?: \[[^\]]*\])*:?$/.test(line),
      );
      assert.deepEqual(nameless, []);
      assert.ok(lines.length > 50, `found ${lines.length} lines of the tree`);
    },
  },
};
