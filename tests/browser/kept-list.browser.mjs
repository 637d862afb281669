import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { keptAs, keptPlans, kill, notice } from './steps/keeping.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, openDemo, openEmpty, reckoned } from './steps/planner.mjs';

const planName = (page) => page.getByLabel('Name of the plan');
const list = (page) => page.getByRole('dialog', { name: 'Plans kept in this browser' });
const row = (page, name) => list(page).locator(`[data-work="${name}"]`);

async function rename(page, name) {
  await planName(page).fill(name);
  await planName(page).press('Enter');
  await keptAs(page, name);
}

async function openList(page) {
  await page.getByText('Import, export, print', { exact: true }).press('Enter');
  await page.getByRole('button', { name: 'Plans kept in this browser…' }).press('Enter');
  await list(page).waitFor();
}

function act(page, words, name) {
  return list(page)
    .getByRole('button', { name: `${words}: ${name}`, exact: true })
    .press('Enter');
}

async function leave(page, origin, name) {
  await openDemo(page, origin);
  await rename(page, name);
  await reckoned(page);
  const numbers = await answerNumbers(page);
  await kill(page);
  return numbers;
}

export const cases = {
  'the list of kept plans says what is open where, opens one with its numbers, and saves one as a file': {
    options: calm,
    run: async ({ page, context, origin }) => {
      const numbers = await leave(page, origin, 'Left');
      const other = await context.newPage();
      await openDemo(other, origin);
      await rename(other, 'In the other tab');
      const next = await context.newPage();
      await openEmpty(next, origin);
      await rename(next, 'Of this tab');
      await openList(next);
      await row(next, 'Left').getByText('elevation kept').waitFor();
      assert.match(await row(next, 'Left').textContent(), /changed \d\d:\d\d.*not in a file.*\d+ kB of elevation kept/);
      assert.match(await row(next, 'In the other tab').textContent(), /open in another tab/);
      assert.match(await row(next, 'Of this tab').textContent(), /open here.*no elevation/);
      // What is open is let go by its tab first.
      assert.equal(
        await row(next, 'Of this tab')
          .getByRole('button', { name: /^Delete/ })
          .count(),
        0,
      );
      assert.equal(
        await row(next, 'In the other tab')
          .getByRole('button', { name: /^Delete/ })
          .count(),
        0,
      );
      await assertAccessible(next, 'list of kept plans');
      const waiting = next.waitForEvent('download');
      await act(next, 'Save as file', 'Left');
      assert.equal((await waiting).suggestedFilename(), 'Left.geojson');
      await row(next, 'Left').getByText('· handed to the browser as a file').waitFor();
      await act(next, 'Open', 'Left');
      await list(next).waitFor({ state: 'detached' });
      await reckoned(next);
      assert.equal(await planName(next).inputValue(), 'Left');
      assert.deepEqual(await answerNumbers(next), numbers);
    },
  },

  'a deleted plan is put back with its elevation, also after the page was closed; deleted for good it is gone': {
    options: calm,
    run: async ({ page, context, origin }) => {
      const numbers = await leave(page, origin, 'Thrown away');
      const next = await context.newPage();
      await openEmpty(next, origin);
      await openList(next);
      await act(next, 'Delete', 'Thrown away');
      await row(next, 'Thrown away').getByText('deleted', { exact: true }).waitFor();
      assert.equal(await next.evaluate(() => document.activeElement.textContent), 'Put back');
      assert.equal(await notice(next, 'found').count(), 0);
      await assertAccessible(next, 'list with a deleted plan');
      await next.close();
      const last = await context.newPage();
      await openEmpty(last, origin);
      await openList(last);
      await act(last, 'Put back', 'Thrown away');
      await act(last, 'Open', 'Thrown away');
      await reckoned(last);
      assert.deepEqual(await answerNumbers(last), numbers);
      await last.getByRole('button', { name: 'New', exact: true }).click();
      await notice(last, 'put-aside').waitFor();
      await openList(last);
      await act(last, 'Delete', 'Thrown away');
      await act(last, 'Delete for good', 'Thrown away');
      await row(last, 'Thrown away').waitFor({ state: 'detached' });
      assert.deepEqual(await keptPlans(last), []);
    },
  },
};
