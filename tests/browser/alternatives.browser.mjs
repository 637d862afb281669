import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { eventually } from './steps/eventually.mjs';
import { keptAs, kill, notice } from './steps/keeping.mjs';
import { calm, courseItem, openDemo, openEmpty, reckoned, showPanel } from './steps/planner.mjs';
import { showTable } from './steps/tables.mjs';

const name = 'Demo valley (invented, in the open Atlantic)';
const copyName = `Alternative 2 of ${name}`;

/** The command in the menu, and the key that the help names. */
async function copyByMenuAndKey(page) {
  await page.locator('.files summary').press('Enter');
  await page.getByRole('button', { name: 'Copy the plan as an alternative', exact: true }).press('Enter');
  const strip = page.getByRole('navigation', { name: 'Alternatives' });
  await strip.getByRole('button', { name: copyName, exact: false, pressed: true }).waitFor();
  await page.keyboard.press('Control+Alt+c');
  await strip.getByRole('button', { name: `Alternative 3 of ${name}`, exact: false, pressed: true }).waitFor();
  return strip;
}

async function copyPlan(page) {
  await showTable(page, 'Alternatives');
  await page.getByRole('button', { name: 'Copy this plan as an alternative' }).press('Enter');
  await page.getByRole('navigation', { name: 'Alternatives' }).waitFor();
}

async function lowerSpurTank(page) {
  await courseItem(page, 'Spur tank').click();
  await showPanel(page, 'Selected');
  const latitude = page.getByLabel('Latitude');
  await latitude.fill('38.00215');
  await latitude.press('Enter');
}

function comparedRow(page, about) {
  return page.getByRole('row').filter({ has: page.getByRole('rowheader', { name: about, exact: true }) });
}

function walk(viewport, colorScheme) {
  return {
    options: { ...calm, viewport, colorScheme },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await copyPlan(page);
      await page.getByText('The two plans do not differ yet.').waitFor();
      if (viewport.width < 600) await showPanel(page, 'Parts');
      await lowerSpurTank(page);
      await showTable(page, 'Alternatives');
      await page.getByLabel(/^Show what is the same/).check();
      await comparedRow(page, 'Spur tank: lift').waitFor();
      await page.getByText('real difference').first().waitFor();
      await comparedRow(page, 'Shoulder tank: lift').waitFor();
      await assertAccessible(page, 'alternatives');
    },
  };
}

export const cases = {
  'a copy of the plan is changed, compared with the first, renamed, deleted and put back': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await copyPlan(page);
      await lowerSpurTank(page);
      await showTable(page, 'Alternatives');

      const lift = comparedRow(page, 'Spur tank: lift');
      await lift.waitFor();
      // The same tank by the course list: its ground on each of the two plans, whose inlets stand alike above it.
      const [asItWas, lowered, by] = (await lift.getByRole('cell').allTextContents()).map((text) =>
        Number.parseFloat(text.replace('−', '-')),
      );
      assert.ok(lowered < asItWas - 3, `found a lift of ${lowered} m beside ${asItWas} m`);
      assert.ok(Math.abs(lowered - asItWas - by) < 0.011, `found a difference of ${by} m`);
      assert.match(await lift.textContent(), /real difference/);
      assert.match(await comparedRow(page, 'Spur tank: place').textContent(), /moved/);
      assert.equal(await comparedRow(page, 'Shoulder tank: lift').count(), 0);

      const nameField = page.getByLabel(`Name of ${copyName}`);
      await nameField.fill('Lower spur');
      await nameField.press('Enter');
      const strip = page.getByRole('navigation', { name: 'Alternatives' });
      await strip.getByRole('button', { name: /^Lower spur/ }).waitFor();
      await strip.getByRole('button', { name }).click();
      await eventually(async () => assert.equal(await page.getByLabel('Name of the plan').inputValue(), name));

      await page.getByRole('button', { name: 'Delete Lower spur' }).click();
      await strip.waitFor({ state: 'detached' });
      await page.getByRole('button', { name: 'Put it back' }).click();
      await strip.getByRole('button', { name: /^Lower spur/ }).waitFor();
      await comparedRow(page, 'Spur tank: lift').waitFor();

      await page.getByRole('button', { name: 'Print the comparison' }).click();
      const sheet = page.getByRole('dialog', { name: 'Two plans side by side' });
      await sheet.getByRole('rowheader', { name: 'Spur tank: lift', exact: true }).waitFor();
      assert.equal(await sheet.locator('.plan-map .beside path').count(), 7);
      assert.ok((await sheet.locator('.profile-figure .alternative').count()) > 0);
      await page.keyboard.press('Escape');
      await sheet.waitFor({ state: 'detached' });
    },
  },
  'a plan is copied by the menu and by key, deleted in the strip, and put back or let go': {
    options: { ...calm, viewport: { width: 1280, height: 800 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      assert.equal(await page.getByRole('navigation', { name: 'Alternatives' }).count(), 0);
      const strip = await copyByMenuAndKey(page);
      assert.equal(await strip.locator('.sheet-tab').count(), 3);

      const remove = () => strip.getByRole('button', { name: /^Delete the alternative/ }).press('Enter');
      await remove();
      await eventually(async () => assert.equal(await strip.locator('.sheet-tab').count(), 2));
      await page.getByRole('button', { name: 'Put it back' }).press('Enter');
      await eventually(async () => assert.equal(await strip.locator('.sheet-tab').count(), 3));
      await remove();
      await page.getByRole('button', { name: 'Let it go' }).press('Enter');
      await page.getByText('is deleted.').waitFor({ state: 'detached' });
    },
  },
  'both plans are there again after their tab was killed': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await copyPlan(page);
      await lowerSpurTank(page);
      await keptAs(page, copyName);
      await kill(page);
      const again = await context.newPage();
      await openEmpty(again, origin);
      await notice(again, 'found').getByRole('button', { name: 'Open it' }).click();
      await reckoned(again);
      const strip = again.getByRole('navigation', { name: 'Alternatives' });
      await strip.getByRole('button', { name, exact: true }).waitFor();
      await strip.getByRole('button', { name: new RegExp(`^${copyName.slice(0, 20)}`) }).waitFor();
    },
  },
  ...Object.fromEntries(
    ['light', 'dark'].flatMap((colours) =>
      [
        ['the wide page', { width: 1280, height: 800 }],
        ['a telephone', { width: 390, height: 844 }],
      ].map(([where, viewport]) => [
        `axe finds nothing wrong with two plans side by side on ${where} in ${colours} colours`,
        walk(viewport, colours),
      ]),
    ),
  ),
};
