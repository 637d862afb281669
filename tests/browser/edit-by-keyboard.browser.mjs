import assert from 'node:assert/strict';
import { eventually } from './steps/eventually.mjs';
import { degreeAt } from './steps/ground.mjs';
import { focusMap, mapAtRest } from './steps/map.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, courseItem, openDemo, savedPlan, showPanel } from './steps/planner.mjs';

/** The answers and the lines of the open plan, to compare exactly. */
async function snapshot(page) {
  await showPanel(page, 'Answer');
  await page.locator('.plan-verdict[data-busy="false"]').waitFor();
  return { numbers: await answerNumbers(page), course: await page.locator('.course-rows').textContent() };
}

async function changedFrom(page, before) {
  return eventually(async () => {
    const now = await snapshot(page);
    assert.notDeepEqual(now, before);
    return now;
  });
}

async function sameAs(page, expected) {
  await eventually(async () => assert.deepEqual(await snapshot(page), expected));
}

async function press(page, name) {
  const button = page.getByRole('button', { name, exact: true });
  await button.focus();
  await page.keyboard.press('Enter');
}

async function featureOf(page, id) {
  return JSON.parse(await savedPlan(page)).features.find((each) => each.id === id);
}

/** Takes the last step back and makes it again; the numbers are exactly those from before and after it. */
async function undoAndRedo(page, before, after) {
  await press(page, 'Undo');
  await sameAs(page, before);
  await page.keyboard.press('Control+Shift+Z');
  await sameAs(page, after);
}

/** Half a cell of the demo's grid of 1 m, to a hundredth of it. */
function assertHalfACellEast(before, after) {
  const { east, north } = degreeAt(before[1]);
  assert.ok(Math.abs((after[0] - before[0]) * east - 0.5) < 0.005, `found ${before} moved to ${after}`);
  assert.ok(Math.abs((after[1] - before[1]) * north) < 0.005, `found ${before} moved to ${after}`);
}

export const cases = {
  'a bend typed as numbers changes the answer; undo and redo bring each back exactly': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const before = await snapshot(page);
      await courseItem(page, 'Delivery over the knoll').focus();
      await page.keyboard.press('Enter');
      await showPanel(page, 'Selected');
      const longitude = page.getByRole('group', { name: /^Bend 1 of/ }).getByLabel('Longitude');
      await longitude.focus();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('-39.9952');
      await page.keyboard.press('Enter');
      const after = await changedFrom(page, before);
      assert.equal((await featureOf(page, 'delivery-behind-knoll')).geometry.coordinates[1][0], -39.9952);
      await undoAndRedo(page, before, after);
    },
  },

  'a bend is added, selected and moved on the map with the keys alone': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      await courseItem(page, 'Delivery over the knoll').focus();
      await page.keyboard.press('Enter');
      await showPanel(page, 'Selected');
      const start = await snapshot(page);
      await showPanel(page, 'Selected');
      await press(page, 'Add a bend after bend 1');
      const added = (await featureOf(page, 'delivery-behind-knoll')).geometry.coordinates[2];
      const before = await changedFrom(page, start);
      await focusMap(page);
      await page.keyboard.press('Alt+ArrowRight');
      const after = await changedFrom(page, before);
      const moved = (await featureOf(page, 'delivery-behind-knoll')).geometry.coordinates[2];
      assertHalfACellEast(added, moved);
      await undoAndRedo(page, before, after);
    },
  },

  'the bends of a line are walked through and moved on the map with the keys alone': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      await courseItem(page, 'Delivery over the knoll').focus();
      await page.keyboard.press('Enter');
      const line = (await featureOf(page, 'delivery-behind-knoll')).geometry.coordinates;
      const last = line.length - 2;
      assert.ok(last >= 1, 'the line is to have a bend');
      await focusMap(page);
      await page.keyboard.press('b');
      await page.getByText(`Bend 1 of ${last}, Delivery over the knoll`).waitFor({ state: 'attached' });
      await page.locator('.profile-reading').filter({ hasText: /\d/ }).waitFor();
      await page.keyboard.press('Shift+B');
      await page.getByText(`Bend ${last} of ${last}, Delivery over the knoll`).waitFor({ state: 'attached' });
      await page.keyboard.press('Alt+ArrowRight');
      await eventually(async () => {
        const moved = (await featureOf(page, 'delivery-behind-knoll')).geometry.coordinates;
        assertHalfACellEast(line[last], moved[last]);
        assert.deepEqual(moved.toSpliced(last, 1), line.toSpliced(last, 1));
      });
    },
  },

  'a point placed by typing its place leaves the keyboard on what was placed': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await press(page, 'Another tank');
      await page.getByLabel('or longitude, latitude').fill('-39.9961, 38.0019');
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => document.activeElement?.getAttribute('aria-current') === 'true');
    },
  },

  'a point nudged with the keys takes its lines with it': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      const before = await snapshot(page);
      const pump = (await featureOf(page, 'pump')).geometry.coordinates;
      await courseItem(page, 'Pump on the bench').focus();
      await page.keyboard.press('Enter');
      await focusMap(page);
      await page.keyboard.press('Alt+ArrowRight');
      const after = await changedFrom(page, before);
      const moved = (await featureOf(page, 'pump')).geometry.coordinates;
      assertHalfACellEast(pump, moved);
      assert.deepEqual((await featureOf(page, 'drive')).geometry.coordinates.at(-1), moved);
      assert.deepEqual((await featureOf(page, 'delivery-spur')).geometry.coordinates[0], moved);
      assert.notEqual(after.numbers.fall.value, before.numbers.fall.value);
      await undoAndRedo(page, before, after);
    },
  },
};
