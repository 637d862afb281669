import assert from 'node:assert/strict';
import { assessText, demoDem } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { answerNumbers, assertAnswer } from './steps/numbers.mjs';
import { calm, savedPlan, showPanel } from './steps/planner.mjs';
import { liftToCandidates, planBeforeVisit } from './steps/stories.mjs';

const wide = { ...calm, viewport: { width: 1440, height: 900 } };
const unseen = { look: async () => undefined };

async function textOf(download) {
  const pieces = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece);
  return Buffer.concat(pieces).toString('utf8');
}

export const cases = {
  'from an empty page to a system that runs, its numbers those of the command line, a sheet for the visit and points to take along':
    {
      options: wide,
      run: async ({ page, origin }) => {
        await planBeforeVisit(page, origin, unseen);
        const verdict = await page.locator('.plan-verdict').getAttribute('data-verdict');
        assert.ok(['holds', 'measure'].includes(verdict), `found ${verdict || 'no verdict'}`);
        const saved = await savedPlan(page);
        const answer = await assessText(saved, demoDem);
        await eventually(async () => assertAnswer(await answerNumbers(page), answer));
        const { points, pump } = JSON.parse(JSON.stringify({ points: JSON.parse(saved).features, pump: answer.pump }));
        assert.ok(pump.fall_m.likely > 3, `found a fall of ${pump.fall_m.likely} m`);

        await page.locator('.course-item').filter({ hasText: 'Standpipe 1' }).click();
        await showPanel(page, 'Selected');
        await page.getByText(/^It can stand where the drive pipe is \d/).waitFor();

        await page.getByText('Import, export, print', { exact: true }).click();
        await page.getByRole('button', { name: 'Print the site visit sheet' }).click();
        const sheet = page.locator('.visit-sheet');
        await sheet.waitFor();
        const words = await sheet.textContent();
        for (const { geometry, properties } of points.filter((each) => each.geometry.type === 'Point')) {
          assert.ok(words.includes(properties.name), `${properties.name} is on the sheet`);
          const [, lat] = geometry.coordinates;
          assert.ok(words.includes(lat.toFixed(6)), `${properties.name}: latitude ${lat} is on the sheet`);
        }
        assert.ok(answer.measure_first.some(({ quantity }) => quantity === 'fall'));
        assert.match(words, /Measure the fall: how far/);
        assert.match(words, /buried|services/i);
        await page.keyboard.press('Escape');
        await sheet.waitFor({ state: 'detached' });

        await page.getByText('Import, export, print', { exact: true }).click();
        const waiting = page.waitForEvent('download');
        await page.getByRole('button', { name: /GPX/ }).first().click();
        const gpx = await textOf(await waiting);
        for (const { properties } of points) assert.ok(gpx.includes(properties.name), `${properties.name} goes along`);
      },
    },
  'from an empty page three tanks get proposed lines and are put in order, one is kept with a reason': {
    options: wide,
    run: async ({ page, origin }) => {
      await liftToCandidates(page, origin, unseen);
      const names = () => page.locator('[data-candidate] th').allTextContents();
      await page
        .locator('.candidates thead')
        .getByRole('button', { name: 'Highest lift on the way', exact: true })
        .click();
      const lifts = await page
        .locator('[data-candidate] [data-field="governing-lift"]')
        .evaluateAll((cells) => cells.map(({ dataset }) => Number(dataset.value)));
      assert.equal(lifts.length, 3);
      assert.deepEqual(
        lifts,
        lifts.toSorted((one, other) => one - other),
      );
      const [best] = await names();
      const answer = await assessText(await savedPlan(page), demoDem);
      const expected = answer.tanks.map(({ governing_lift_m }) => governing_lift_m.likely).toSorted((a, b) => a - b);
      for (const [at, lift] of expected.entries()) {
        assert.ok(Math.abs(lift - lifts[at]) < 0.01, `found ${lifts[at]} m, expected ${lift} m`);
      }

      await page.locator('[data-candidate]').first().getByRole('button', { name: 'Chosen', exact: true }).click();
      for (const name of (await names()).slice(1)) {
        const why = page.getByLabel(`Why, for ${name.trim()}`);
        await why.fill('Longer and higher.');
        await why.press('Enter');
        await page
          .locator('[data-candidate]')
          .filter({ hasText: name })
          .getByRole('button', { name: 'Ruled out' })
          .click();
      }
      const kept = JSON.parse(await savedPlan(page)).features.filter(
        ({ properties }) => properties.standing === 'kept',
      );
      assert.deepEqual(
        kept.map(({ properties }) => properties.name),
        [best.trim()],
      );
    },
  },
};
