import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { changingSite } from './steps/changing-site.mjs';
import { notice } from './steps/keeping.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, openDemo, reckoned } from './steps/planner.mjs';

/** Waits until the site is laid in and a worker answers for this page. */
async function keptForOffline(page) {
  await page.evaluate(async () => {
    const { serviceWorker } = navigator;
    await serviceWorker.ready;
    if (serviceWorker.controller === null) {
      await new Promise((resolve) => serviceWorker.addEventListener('controllerchange', resolve, { once: true }));
    }
  });
}

function waitingWorkers(page) {
  return page.evaluate(async () => {
    const registrations = await navigator.serviceWorker.getRegistrations();
    return registrations.filter(({ waiting }) => waiting !== null).length;
  });
}

export const cases = {
  'the demo answers without a network once it was opened': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      const before = await answerNumbers(page);
      await keptForOffline(page);
      await context.setOffline(true);
      await page.reload();
      await reckoned(page);
      assert.deepEqual(await answerNumbers(page), before);
    },
  },

  'a new version waits until the user turns to it, and then answers with the same numbers': {
    options: calm,
    run: async ({ page, origin, allowOrigin }) => {
      const site = await changingSite(origin);
      allowOrigin(site.origin);
      try {
        await openDemo(page, site.origin);
        const before = await answerNumbers(page);
        await keptForOffline(page);
        await page.reload();
        await reckoned(page);
        assert.equal(await notice(page, 'new-version').count(), 0);
        site.change();
        await page.reload();
        await reckoned(page);
        await notice(page, 'new-version').waitFor();
        await assertAccessible(page, 'new version');
        // It waits: the page at hand goes on as it is.
        assert.equal(await waitingWorkers(page), 1);
        await Promise.all([page.waitForEvent('load'), notice(page, 'new-version').getByRole('button').click()]);
        await reckoned(page);
        assert.equal(await waitingWorkers(page), 0);
        assert.equal(await notice(page, 'new-version').count(), 0);
        assert.deepEqual(await answerNumbers(page), before);
      } finally {
        site.close();
      }
    },
  },
};
