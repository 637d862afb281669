import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, drawnIn, openDemo, reckoned, savedPlan, showPanel } from './steps/planner.mjs';

const planName = (page) => page.getByLabel('Name of the plan');
const list = (page) => page.getByRole('listbox', { name: 'Steps' });

async function rename(page, name) {
  await planName(page).fill(name);
  await planName(page).press('Enter');
}

async function openList(page) {
  await page.getByRole('button', { name: 'List of steps' }).press('Enter');
  await list(page).waitFor();
}

const now = (page) => list(page).getByRole('option', { selected: true });

export const cases = {
  'any step of the list is gone to from the keyboard, back and forward again': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const before = drawnIn(await savedPlan(page));
      const name = await planName(page).inputValue();
      for (const each of ['One', 'Two', 'Three']) await rename(page, each);
      await openList(page);
      assert.equal(await list(page).getByRole('option').count(), 4);
      assert.match(await now(page).textContent(), /name the plan Three/);
      await assertAccessible(page, 'list of steps');
      await page.keyboard.press('Home');
      await page.keyboard.press('Enter');
      assert.equal(await planName(page).inputValue(), name);
      assert.deepEqual(drawnIn(await savedPlan(page)), before);
      await openList(page);
      assert.match(await now(page).textContent(), /before these steps/);
      assert.equal(
        await list(page)
          .getByRole('option', { name: /undone/ })
          .count(),
        3,
      );
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      assert.equal(await planName(page).inputValue(), 'Two');
      assert.equal(await page.evaluate(() => document.activeElement.title), 'List of steps');
    },
  },

  'a click on a step takes back what came after it, and the numbers with it': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const before = await answerNumbers(page);
      await page.locator('.course-item').filter({ hasText: 'Tank behind the knoll' }).click();
      await page.keyboard.press('Delete');
      await rename(page, 'Without a tank');
      await page.getByRole('button', { name: 'List of steps' }).click();
      await list(page).getByRole('option').first().click();
      await list(page).waitFor({ state: 'detached' });
      await showPanel(page, 'Answer');
      await reckoned(page);
      await page.locator('tr[data-tank]').nth(2).waitFor();
      assert.deepEqual(await answerNumbers(page), before);
    },
  },

  'the list of steps closes on Escape and on a second click, and changes nothing': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await rename(page, 'Once');
      await openList(page);
      await page.keyboard.press('Escape');
      await list(page).waitFor({ state: 'detached' });
      const button = page.getByRole('button', { name: 'List of steps' });
      await button.click();
      await list(page).waitFor();
      await button.click();
      await list(page).waitFor({ state: 'detached' });
      assert.equal(await planName(page).inputValue(), 'Once');
    },
  },
};
