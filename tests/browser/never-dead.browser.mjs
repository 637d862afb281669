import assert from 'node:assert/strict';
import { eventually } from './steps/eventually.mjs';
import { notice } from './steps/keeping.mjs';
import { calm, openDemo, openEmpty, reckoned } from './steps/planner.mjs';

const planName = (page) => page.getByLabel('Name of the plan');

export const cases = {
  'a part of the page that fails says so, and the rest of the page goes on': {
    options: calm,
    run: async ({ page, origin }) => {
      await page.addInitScript(() => {
        HTMLDialogElement.prototype.showModal = () => {
          throw new Error('no dialog today');
        };
      });
      await openDemo(page, origin);
      await page.getByRole('button', { name: 'Help', exact: true }).click();
      const failed = page.locator('.refused').filter({ hasText: 'The help cannot be shown' });
      await failed.getByText('no dialog today').waitFor();
      await failed.getByRole('button', { name: 'Copy the details' }).waitFor();
      await planName(page).fill('Still alive');
      await planName(page).press('Enter');
      await eventually(async () => assert.equal(await page.title(), 'Still alive · Rillwright'));
      await reckoned(page);
    },
  },

  'what is thrown where nobody waits for it is told, with a way to save': async ({ browser, origin }) => {
    // A context of its own: an error of the page is the point.
    const context = await browser.newContext({ locale: 'en-GB' });
    try {
      for (const [words, thrown] of [
        [
          'thrown in a timer',
          () =>
            setTimeout(() => {
              throw new Error('thrown in a timer');
            }),
        ],
        ['thrown in a promise', () => void Promise.reject(new Error('thrown in a promise'))],
      ]) {
        const page = await context.newPage();
        await openEmpty(page, origin);
        await page.evaluate(thrown);
        await notice(page, 'fault').getByText(words).waitFor();
        assert.equal(await notice(page, 'fault').getByRole('button', { name: 'Save plan' }).count(), 1);
        await notice(page, 'fault').getByRole('button', { name: 'OK', exact: true }).click();
        await eventually(async () => assert.equal(await notice(page, 'fault').count(), 0));
      }
    } finally {
      await context.close();
    }
  },

  'a page whose files were replaced by a new version says so, instead of a button that does nothing': async ({
    browser,
    origin,
  }) => {
    // A context of its own: a missing file is an error in the console. Without a service worker, which would still have the file.
    const context = await browser.newContext({ serviceWorkers: 'block' });
    try {
      const page = await context.newPage();
      await openEmpty(page, origin);
      await page.route('**/assets/glossary-words-*', (route) => route.fulfill({ status: 404, body: 'no such file' }));
      await page.route(`${origin}/`, (route) =>
        route.fulfill({ contentType: 'text/html', body: '<script type="module" src="./assets/index-another1.js">' }),
      );
      await page.getByRole('button', { name: 'Help', exact: true }).click();
      await page.getByRole('button', { name: 'Words', exact: true }).click();
      await notice(page, 'new-version').getByText('A new version is there').waitFor({ state: 'attached' });
      assert.equal(await notice(page, 'new-version').getByText('Load the page again').count(), 1);
    } finally {
      await context.close();
    }
  },

  'the help tells whose packages are shipped, and under which licences': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await page.getByRole('button', { name: 'Help', exact: true }).click();
      await page.getByRole('button', { name: 'About', exact: true }).click();
      const licences = page.getByTestId('licences');
      await licences.getByText('WITHOUT WARRANTY OF ANY KIND').waitFor();
      const text = await licences.textContent();
      for (const name of ['preact', 'maplibre-gl', 'fflate', 'proj4'])
        assert.match(text, new RegExp(`^${name} \\d`, 'm'));
    },
  },
};
