import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { clickMap, mapAtRest, pixelOf, takePencil, viewOf, zoomIn } from './steps/map.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, canUndo, openDemo, savedPlan, showPanel } from './steps/planner.mjs';

const plan = JSON.parse(await readFile(demoPlan, 'utf8'));
const placeOfPoint = (wanted) => plan.features.find(({ id }) => id === wanted).geometry.coordinates;

async function fallOf(page) {
  await showPanel(page, 'Answer');
  return (await answerNumbers(page)).fall.value;
}

async function fallIs(page, wanted) {
  await eventually(async () => assert.equal(await fallOf(page), wanted));
}

async function toolPutDown(page) {
  await page.locator('.map-view[data-tool="select"]').waitFor();
}

export const cases = {
  'Escape leaves a line that is being drawn; the plan is as it was': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await zoomIn(page, 16);
      const saved = await savedPlan(page);
      await takePencil(page, 'Delivery line');
      await clickMap(page, placeOfPoint('pump'));
      await clickMap(page, [-39.9958, 38.0011]);
      await page.keyboard.press('Escape');
      await toolPutDown(page);
      assert.equal(await savedPlan(page), saved);
      assert.equal(await canUndo(page), false);
    },
  },

  'a line that ends on no point is refused with a sentence; the plan is as it was': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await zoomIn(page, 16);
      const saved = await savedPlan(page);
      await takePencil(page, 'Delivery line');
      await clickMap(page, placeOfPoint('pump'));
      await clickMap(page, [-39.9958, 38.0011]);
      await page.keyboard.press('Enter');
      const sentence = page.locator('.tool-hint [role="alert"]');
      await sentence.waitFor();
      assert.match(await sentence.textContent(), /found a line whose end meets no fitting point; expected/i);
      assert.equal(await savedPlan(page), saved);
    },
  },

  'numbers follow a drag; Escape gives it up and they are as before': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await zoomIn(page, 16);
      const before = await fallOf(page);
      const saved = await savedPlan(page);
      const { x, y } = pixelOf(await viewOf(page), placeOfPoint('pump'));
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 12, y + 16, { steps: 4 });
      await eventually(async () => assert.notEqual(await fallOf(page), before));
      await page.keyboard.press('Escape');
      await fallIs(page, before);
      await page.mouse.up();
      await mapAtRest(page);
      assert.equal(await savedPlan(page), saved);
      assert.equal(await canUndo(page), false);
    },
  },

  'a finished drag is one step': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await zoomIn(page, 16);
      const before = await fallOf(page);
      const saved = await savedPlan(page);
      const { x, y } = pixelOf(await viewOf(page), placeOfPoint('pump'));
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 12, y + 16, { steps: 8 });
      await page.mouse.up();
      await eventually(async () => assert.notEqual(await fallOf(page), before));
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await fallIs(page, before);
      assert.equal(await savedPlan(page), saved);
      assert.equal(await canUndo(page), false);
    },
  },

  'leaving with unsaved changes asks; after saving it does not': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const name = page.getByLabel('Name of the plan');
      await name.fill('Another name');
      await name.press('Enter');
      await page.getByText('(unsaved changes)').waitFor({ state: 'attached' });
      const asked = page.waitForEvent('dialog');
      await page.close({ runBeforeUnload: true });
      const dialog = await asked;
      assert.equal(dialog.type(), 'beforeunload');
      await dialog.dismiss();
      assert.equal(JSON.parse(await savedPlan(page)).rillwright.name, 'Another name');
      const asks = [];
      page.on('dialog', (each) => asks.push(each.type()) && each.dismiss());
      const closed = page.waitForEvent('close');
      await page.close({ runBeforeUnload: true });
      await closed;
      assert.deepEqual(asks, []);
    },
  },
};
