import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { eventually } from './steps/eventually.mjs';
import { mapAtRest, viewOf } from './steps/map.mjs';
import { calm, courseItem, openDemo, savedPlan, showPanel } from './steps/planner.mjs';

const here = { longitude: -39.99742, latitude: 38.00172, accuracy: 6 };
const beyond = { longitude: -39.9, latitude: 38.05, accuracy: 40 };
const telephone = { width: 390, height: 844 };

export const cases = {
  'the device’s place is shown once asked for, serves to place a point, and is not part of the plan': {
    options: { ...calm, viewport: telephone, geolocation: here, permissions: ['geolocation'] },
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      const button = page.getByRole('button', { name: 'Where I am', exact: true });
      const words = page.locator('.device-words');
      assert.equal(await words.count(), 0);
      await button.click();
      await page.getByText('38.00172° N, 39.99742° W').waitFor();
      await page.getByText(/^ground 16\d\.\d+.m, from the elevation file$/).waitFor();
      await assertAccessible(page, 'where the device is');
      assert.doesNotMatch(await savedAll(page), /-39\.99742\b/);

      await showPanel(page, 'Parts');
      await page.getByRole('button', { name: 'Another tank' }).click();
      await page.getByRole('button', { name: 'Place where I am' }).click();
      await showPanel(page, 'Selected');
      await page.getByLabel('Latitude').waitFor();
      assert.equal(await page.getByLabel('Latitude').inputValue(), String(here.latitude));

      await context.setGeolocation(beyond);
      await page.getByText('38.05000° N, 39.90000° W').waitFor();
      await showPanel(page, 'Parts');
      await courseItem(page, 'Alder spring').click();
      await showPanel(page, 'Selected');
      await page.getByRole('button', { name: 'Move it to where I am' }).click();
      await eventually(async () => assert.equal(await page.getByLabel('Latitude').inputValue(), '38.05'));

      await button.click();
      await words.waitFor({ state: 'detached' });
    },
  },
  'the map goes to where the device is when that is out of sight': {
    options: { ...calm, geolocation: beyond, permissions: ['geolocation'] },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      await page.getByRole('button', { name: 'Where I am', exact: true }).click();
      await eventually(async () => {
        const { center } = await viewOf(page);
        assert.ok(Math.hypot(center[0] + 39.9, center[1] - 38.05) < 1e-4, `found the map at ${center}`);
      });
    },
  },
  'a device that may not be asked leaves a sentence and no place': {
    options: { ...calm, permissions: [] },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByRole('button', { name: 'Where I am', exact: true }).click();
      await page.getByText('This page may not read the position.').waitFor();
      await page.getByRole('button', { name: 'OK', exact: true }).click();
      await page.getByText('This page may not read the position.').waitFor({ state: 'detached' });
    },
  },
};

/** The plan as it would be saved; on a narrow page the button is in the menu. */
async function savedAll(page) {
  await page.getByText('Menu', { exact: true }).click();
  return savedPlan(page);
}
