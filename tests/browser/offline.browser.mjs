import assert from 'node:assert/strict';
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
};
