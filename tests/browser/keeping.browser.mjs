import assert from 'node:assert/strict';
import { eventually } from './steps/eventually.mjs';
import { keptAs, keptNames, keptPlans, kill, notice, secondCopies } from './steps/keeping.mjs';
import { answerNumbers, tankVerdicts } from './steps/numbers.mjs';
import { calm, drawnIn, openDemo, openEmpty, reckoned, savedPlan } from './steps/planner.mjs';

const planName = (page) => page.getByLabel('Name of the plan');

async function rename(page, name) {
  await planName(page).fill(name);
  await planName(page).press('Enter');
  await keptAs(page, name);
}

/** Opens the demo, changes it, waits until that is kept; gives the numbers of the page. */
async function changedDemo(page, origin, name) {
  await openDemo(page, origin);
  await rename(page, name);
  await reckoned(page);
  return {
    numbers: await answerNumbers(page),
    verdicts: await tankVerdicts(page),
    plan: (await keptPlans(page))[0].text,
  };
}

export const cases = {
  'work of a tab that was killed is offered, and opens with the same numbers and the same plan': {
    options: calm,
    run: async ({ page, context, origin }) => {
      const before = await changedDemo(page, origin, 'Not in a file');
      await kill(page);
      const next = await context.newPage();
      await openEmpty(next, origin);
      await notice(next, 'found').getByText('Not in a file').waitFor();
      assert.match(await notice(next, 'found').textContent(), /Found work from \d\d:\d\d that is not in a file/);
      // Nothing is replaced before the user says so.
      assert.equal(await planName(next).inputValue(), 'New plan');
      await notice(next, 'found').getByRole('button', { name: 'Open it' }).click();
      await reckoned(next);
      assert.deepEqual(await answerNumbers(next), before.numbers);
      assert.deepEqual(await tankVerdicts(next), before.verdicts);
      assert.deepEqual(drawnIn(await savedPlan(next)), drawnIn(before.plan));
    },
  },

  'what was saved as a file is not offered; what is left stays in the list': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await rename(page, 'In a file');
      await savedPlan(page);
      await eventually(async () => assert.equal((await keptPlans(page))[0].handed, true));
      await page.close();
      const next = await context.newPage();
      await openDemo(next, origin);
      await rename(next, 'Left');
      await kill(next);
      const last = await context.newPage();
      await openEmpty(last, origin);
      await notice(last, 'found').getByText('Left').waitFor();
      assert.equal(await notice(last, 'found').getByText('In a file', { exact: true }).count(), 0);
      await notice(last, 'found').getByRole('button', { name: 'Not now' }).click();
      assert.equal(await planName(last).inputValue(), 'New plan');
      await keptAs(last, 'Left');
    },
  },

  'a database that the browser lost is brought back from the second copy, and the page says so': {
    options: calm,
    run: async ({ page, context, origin }) => {
      const before = await changedDemo(page, origin, 'Not lost');
      await kill(page);
      const bare = await context.newPage();
      await bare.goto(`${origin}/licences.txt`);
      await eventually(async () => assert.match(await secondCopies(bare), /Not lost/));
      await bare.evaluate(
        () =>
          new Promise((resolve, reject) => {
            const request = indexedDB.deleteDatabase('rillwright');
            request.onsuccess = resolve;
            request.onerror = reject;
          }),
      );
      const next = await context.newPage();
      await openEmpty(next, origin);
      await notice(next, 'lost-and-found').getByText('Not lost').waitFor();
      await notice(next, 'found').getByRole('button', { name: 'Open it' }).click();
      await eventually(async () => assert.equal(await planName(next).inputValue(), 'Not lost'));
      assert.deepEqual(drawnIn(await savedPlan(next)), drawnIn(before.plan));
    },
  },

  'steps can be undone after the tab was killed': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await rename(page, 'First name');
      await rename(page, 'Second name');
      await kill(page);
      const next = await context.newPage();
      await openEmpty(next, origin);
      await notice(next, 'found').getByRole('button', { name: 'Open it' }).click();
      await eventually(async () => assert.equal(await planName(next).inputValue(), 'Second name'));
      await next.getByRole('button', { name: 'Undo', exact: true }).click();
      await eventually(async () => assert.equal(await planName(next).inputValue(), 'First name'));
    },
  },

  'text that was typed and not left is kept when the tab is killed': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await planName(page).fill('Typed and not left');
      await keptAs(page, 'Typed and not left');
      await kill(page);
      const next = await context.newPage();
      await openEmpty(next, origin);
      await notice(next, 'found').getByText('Typed and not left').waitFor();
    },
  },

  'a store that hangs blocks neither New nor Save, and the page says so': {
    options: calm,
    run: async ({ page, origin }) => {
      await page.addInitScript(() => {
        // A request that is never answered.
        IDBFactory.prototype.open = () => new EventTarget();
      });
      await openDemo(page, origin);
      await planName(page).fill('On a store that hangs');
      await planName(page).press('Enter');
      await notice(page, 'failed').getByText('does not answer').waitFor();
      assert.match(await savedPlan(page), /On a store that hangs/);
      const asked = page.waitForEvent('dialog');
      const click = page.getByRole('button', { name: 'New', exact: true }).click();
      await (await asked).accept();
      await click;
      await eventually(async () => assert.equal(await planName(page).inputValue(), 'New plan'));
    },
  },

  'a new plan puts unsaved work aside and opens it again': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await rename(page, 'Aside');
      await page.getByRole('button', { name: 'New', exact: true }).click();
      await notice(page, 'put-aside').getByText('Aside').waitFor();
      assert.equal(await planName(page).inputValue(), 'New plan');
      await notice(page, 'put-aside').getByRole('button', { name: 'Open it again' }).click();
      await reckoned(page);
      assert.equal(await planName(page).inputValue(), 'Aside');
    },
  },

  'a second tab says what is open in the first, takes it over, and the first stops writing': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await rename(page, 'Of the first tab');
      const other = await context.newPage();
      await openEmpty(other, origin);
      await notice(other, 'elsewhere').getByText('Of the first tab').waitFor();
      await notice(other, 'elsewhere').getByRole('button', { name: 'Take it over' }).click();
      await reckoned(other);
      await notice(page, 'taken-over').waitFor();
      await rename(other, 'Of the second tab');
      await planName(page).fill('Too late');
      await planName(page).press('Enter');
      await notice(page, 'taken-over').getByRole('button', { name: 'Go on here with a copy' }).click();
      await keptAs(page, 'Too late');
      assert.deepEqual((await keptNames(page)).sort(), ['Of the second tab', 'Too late']);
    },
  },

  'a copy in a second tab leaves the work of the first alone': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await rename(page, 'Of the first tab');
      const other = await context.newPage();
      await openEmpty(other, origin);
      await notice(other, 'elsewhere').getByRole('button', { name: 'Open a copy' }).click();
      await reckoned(other);
      await rename(other, 'A copy');
      await rename(page, 'Still of the first tab');
      assert.deepEqual((await keptNames(page)).sort(), ['A copy', 'Still of the first tab']);
      assert.equal(await notice(page, 'taken-over').count(), 0);
    },
  },

  'a browser that keeps nothing is said so in one line, and the plan stays on the page': {
    options: calm,
    run: async ({ page, origin }) => {
      await page.addInitScript(() => {
        IDBFactory.prototype.open = () => {
          throw new DOMException('storage is switched off', 'SecurityError');
        };
      });
      await openDemo(page, origin);
      await planName(page).fill('Kept nowhere');
      await planName(page).press('Enter');
      await notice(page, 'failed').getByText('storage is switched off').waitFor();
      assert.equal(await planName(page).inputValue(), 'Kept nowhere');
      const asked = page.waitForEvent('dialog');
      const click = page.getByRole('button', { name: 'New', exact: true }).click();
      const dialog = await asked;
      assert.equal(dialog.type(), 'confirm');
      await dialog.dismiss();
      await click;
      assert.equal(await planName(page).inputValue(), 'Kept nowhere');
    },
  },
};
