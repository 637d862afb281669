import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { focusMap, mapAtRest, moveMap, viewOf } from './steps/map.mjs';
import { calm, openDemo, savedPlan, showPanel } from './steps/planner.mjs';

const legendOf = (page) => page.getByText('What would arrive a day', { exact: true });

async function mapPicture(page) {
  await mapAtRest(page);
  return (await page.locator('.map-frame canvas').screenshot()).toString('base64');
}

async function findThePlace(page, origin) {
  await openDemo(page, origin);
  await showPanel(page, 'Tables');
  await page.getByRole('button', { name: 'Find the place' }).click();
}

export const cases = {
  'the map of what would arrive comes from the keyboard, is read under the pointer, and a tank placed on it has its line':
    {
      options: calm,
      run: async ({ page, origin }) => {
        await findThePlace(page, origin);
        const plain = await mapPicture(page);
        const control = page.getByRole('checkbox', { name: 'Show on the map what would arrive' });
        await control.focus();
        await page.keyboard.press('Space');
        await page.getByText('Point at the map to read it.').waitFor();
        await legendOf(page).waitFor();
        assert.notEqual(await mapPicture(page), plain);
        await assertAccessible(page, 'the map of what would arrive');
        const { box } = await viewOf(page);
        const at = { x: box.x + box.width * 0.62, y: box.y + box.height * 0.3 };
        await page.mouse.move(at.x, at.y);
        await page.locator('.map-readout', { hasText: 'would arrive' }).waitFor();
        await page.getByRole('button', { name: 'Another tank' }).click();
        await page.mouse.click(at.x, at.y);
        await page
          .getByText(/^Delivery \d+$/)
          .first()
          .waitFor();
        await control.focus();
        await page.keyboard.press('Space');
        assert.equal(await legendOf(page).count(), 0);
      },
    },
  'places and systems are found, lie on the map as a ghost, and become alternatives, by keyboard': {
    options: calm,
    run: async ({ page, origin }) => {
      await findThePlace(page, origin);
      await page.getByRole('button', { name: 'Find places' }).press('Enter');
      await page.getByRole('heading', { name: 'Where the pump could stand' }).waitFor();
      await assertAccessible(page, 'places and systems');
      const plain = await mapPicture(page);
      await page.getByRole('button', { name: 'Show place 1 on the map' }).press('Enter');
      assert.notEqual(await mapPicture(page), plain);
      const systems = page.getByRole('heading', { name: 'Whole systems' }).locator('..').getByRole('checkbox');
      assert.ok((await systems.count()) >= 1);
      await systems.first().focus();
      await page.keyboard.press('Space');
      await page.getByRole('button', { name: 'Dark theme' }).click();
      await assertAccessible(page, 'places and systems in the dark');
      await page.getByRole('button', { name: 'Add as alternatives (1)' }).press('Enter');
      await page.getByRole('button', { name: /^Demo valley/ }).waitFor();
    },
  },
  'on a telephone the places are a list that does not run out of the page': {
    options: { ...calm, viewport: { width: 390, height: 844 } },
    run: async ({ page, origin }) => {
      await findThePlace(page, origin);
      await page.getByRole('button', { name: 'Find places' }).click();
      await page.getByRole('heading', { name: 'Where the pump could stand' }).waitFor();
      await assertAccessible(page, 'places on a telephone');
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `the page is ${over} px too wide`);
    },
  },
  'an area is drawn on the map with the keyboard, named, and kept in the plan; undo takes it away': {
    options: calm,
    run: async ({ page, origin }) => {
      await findThePlace(page, origin);
      await page.getByText('What must not be crossed', { exact: true }).click();
      await page.getByRole('button', { name: 'Draw an area' }).press('Enter');
      await focusMap(page);
      for (const key of ['ArrowRight', 'ArrowDown', 'ArrowLeft']) {
        await page.keyboard.press('Enter');
        await moveMap(page, key);
      }
      await page.getByText('3 so far').waitFor();
      await page.getByRole('button', { name: 'Finish the area' }).press('Enter');
      const name = page.getByRole('textbox', { name: 'Name of the area' });
      await name.fill('Neighbour’s meadow');
      await name.press('Enter');
      await assertAccessible(page, 'an area that must not be crossed');
      const plan = JSON.parse(await savedPlan(page));
      const area = plan.features.find((each) => each.properties.role === 'avoid');
      assert.equal(area.properties.name, 'Neighbour’s meadow');
      assert.equal(area.geometry.coordinates[0].length, 4);
      await page.getByRole('button', { name: 'Undo' }).click();
      await page.getByRole('button', { name: 'Undo' }).click();
      assert.equal(await name.count(), 0);
    },
  },
};
