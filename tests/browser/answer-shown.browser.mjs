import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { calm, courseItem, openDemo, showPanel } from './steps/planner.mjs';

const wide = { ...calm, viewport: { width: 1440, height: 900 } };

/** The middle of the map, `[lon, lat]`. */
async function middleOf(page) {
  return JSON.parse(await page.locator('.map-frame').getAttribute('data-view')).center;
}

async function openPlan(page, change) {
  const plan = JSON.parse(await readFile('data/demo/plan.geojson', 'utf8'));
  change(plan);
  const buffer = Buffer.from(JSON.stringify(plan));
  const file = { name: 'changed.geojson', mimeType: 'application/geo+json', buffer };
  await page.locator('input[type=file][accept=".geojson,.json,.zip"]').setInputFiles(file);
}

export const cases = {
  'Show in a finding moves map and profile to the place and leaves the panel where it is': {
    options: wide,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      // Far away, so that the place is out of sight.
      await page.locator('.map-frame canvas').focus();
      for (let i = 0; i < 12; i++) await page.keyboard.press('ArrowRight');
      const away = await middleOf(page);
      const finding = page.locator('.findings li[data-code="siphon"], .findings li[data-verdict="fails"]').first();
      await finding.getByRole('button', { name: /^Show/ }).click();
      await page.waitForFunction(
        (before) => JSON.parse(document.querySelector('.map-frame').dataset.view).center[0] < before - 1e-4,
        away[0],
      );
      assert.equal(await page.getByRole('tab', { name: 'Answer', exact: true }).getAttribute('aria-selected'), 'true');
      await page.locator('.profile-figure .cursor').waitFor({ state: 'attached' });
    },
  },
  'a remedy that is pointed at lies over the profile, and is gone when the pointer leaves': {
    options: wide,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openPlan(page, (plan) => {
        plan.rillwright.yield_readings = [{ kind: 'stated', flow_L_per_min: 7, plus_minus_L_per_min: 0.7 }];
      });
      const button = page.locator('.plan-verdict[data-state="stops"] .do-it');
      await button.waitFor();
      await button.hover();
      await page.getByText('as it would be').waitFor();
      await page.mouse.move(2, 2);
      await page.getByText('as it would be').waitFor({ state: 'detached' });
      await button.focus();
      await page.getByText('as it would be').waitFor();
    },
  },
  'a tank that is set aside folds into one line of the list, and its part can still be reached': {
    options: wide,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openPlan(page, (plan) => {
        const tank = plan.features.find(({ id }) => id === 'tank-spur');
        tank.properties.standing = 'set-aside';
      });
      await page.getByText('1 tank ruled out').waitFor();
      const folded = page.locator('.course-aside .course-item.point');
      assert.equal(await folded.isVisible(), false);
      await page.getByText('1 tank ruled out').click();
      await folded.click();
      await page.getByRole('heading', { name: 'Spur tank' }).waitFor();
    },
  },
  'the depth of a trench is set on the line, drawn in the profile, and undone like any other step': {
    options: wide,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await courseItem(page, 'Delivery up the spur').click();
      await showPanel(page, 'Selected');
      const drawn = page.locator('.profile-figure .pipe.delivery .pipe-line').first();
      const before = await drawn.getAttribute('d');
      await page.getByLabel('Dug in by').fill('1.2 m');
      await page.getByLabel('Dug in by').press('Enter');
      await page.waitForFunction(
        (old) => document.querySelector('.profile-figure .pipe.delivery .pipe-line')?.getAttribute('d') !== old,
        before,
      );
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await page.waitForFunction(
        (old) => document.querySelector('.profile-figure .pipe.delivery .pipe-line')?.getAttribute('d') === old,
        before,
      );
    },
  },
};
