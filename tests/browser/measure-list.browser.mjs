import assert from 'node:assert/strict';
import { eventually } from './steps/eventually.mjs';
import { calm, openDemo, reckoned, savedPlan, showPanel } from './steps/planner.mjs';

const list = (page) => page.locator('.measure-first');
const levels = async (page) => JSON.parse(await savedPlan(page)).rillwright.measurements;

export const cases = {
  'a thing of the list opens its form with the right reference, is ticked off, and what it changed is said': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const before = (await levels(page)).length;
      await list(page)
        .getByRole('button', { name: /^Measure the fall: / })
        .click();
      const form = page.locator('.measure-level');
      const amount = form.locator('[data-field="how-much"]').last();
      await eventually(async () => assert.ok(await amount.evaluate((field) => field === document.activeElement)));
      assert.equal(await form.getByLabel('Compared with').last().inputValue(), 'spring');
      assert.equal(await form.getByLabel('lower or higher').last().inputValue(), 'lower');
      await amount.fill('4.6');
      await amount.press('Enter');
      await eventually(async () => assert.equal((await levels(page)).length, before + 1));
      const taken = (await levels(page)).at(-1);
      assert.equal(taken.rise_m, -4.6);

      await showPanel(page, 'Answer');
      await page.getByText(/^Working fall was [\d.]+ to [\d.]+.m, now [\d.]+( to [\d.]+)?.m\./).waitFor();
      await page
        .locator('.measured-done')
        .getByText(/4\.6.m lower than at/)
        .waitFor();
      await eventually(async () => assert.equal(await list(page).locator('[data-quantity="fall"]').count(), 0));
    },
  },

  'a bucket test of the list counts once its times are typed, and not before': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const readings = async () => JSON.parse(await savedPlan(page)).rillwright.yield_readings;
      const before = await readings();
      await list(page)
        .getByRole('button', { name: /^Do a bucket test/ })
        .click();
      const form = page.getByRole('group', { name: /^New bucket test/ });
      assert.equal(await form.getByLabel('Times to fill it').inputValue(), '');
      assert.deepEqual(await readings(), before);
      await form.getByLabel('Times to fill it').fill('0:31 0:33 32');
      await form.getByLabel('Times to fill it').press('Enter');
      await eventually(async () => assert.deepEqual((await readings()).at(-1).times_s, [31, 33, 32]));
    },
  },

  'a browser that speaks American opens in feet and gallons, with round sizes': {
    options: { ...calm, locale: 'en-US' },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await reckoned(page);
      assert.equal(await page.getByRole('button', { name: 'US', exact: true }).getAttribute('aria-pressed'), 'true');
      assert.match(await page.locator('.plan-verdict').textContent(), /gal\/day/);
      assert.equal(await page.locator('.head').getByRole('button', { name: 'Undo' }).isDisabled(), true);
    },
  },
};
