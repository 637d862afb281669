import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { tankVerdicts } from './steps/numbers.mjs';
import { calm, courseItem, openDemo, showPanel } from './steps/planner.mjs';

const stop = (page, number, done) =>
  page.locator(`.guided-look[data-stop="${number}"]${done === undefined ? '' : `[data-done="${done}"]`}`);

/** By the pointer, or by the keyboard alone. */
const hands = {
  pointer: (locator) => locator.click(),
  keyboard: async (locator) => {
    await locator.focus();
    await locator.press('Enter');
  },
};

async function next(page, act, number) {
  await stop(page, number, true).waitFor();
  await act(page.getByRole('button', { name: 'Next stop' }));
  await stop(page, number + 1).waitFor();
}

async function type(field, text) {
  await field.fill(text);
  await field.press('Enter');
}

/** The six stops, each done by the hand of the one who learns. */
async function walk(page, act, { lower, plusMinus }) {
  await act(page.getByRole('button', { name: 'Guided look', exact: true }));
  await stop(page, 1, false).waitFor();
  await act(courseItem(page, 'Pump on the bench'));
  await next(page, act, 1);
  await act(courseItem(page, 'Shoulder tank'));
  await next(page, act, 2);

  await showPanel(page, 'Answer');
  assert.equal((await tankVerdicts(page))['tank-behind-knoll'], 'fails');
  await act(courseItem(page, 'Delivery over the knoll'));
  await showPanel(page, 'Selected');
  const bend = page.getByRole('group', { name: /^Bend 1 of/ });
  await bend.waitFor();
  // The drawn line has bends over the hill: they go, and one round its foot comes.
  while ((await page.getByRole('button', { name: /^Delete bend/ }).count()) > 1)
    await act(page.getByRole('button', { name: /^Delete bend/ }).last());
  await type(bend.getByLabel('Longitude'), '-39.9935');
  await type(bend.getByLabel('Latitude'), '38.0012');
  await next(page, act, 3);

  await act(courseItem(page, 'Pump on the bench'));
  await showPanel(page, 'Selected');
  await act(page.locator('.measure-level > summary'));
  const form = page.locator('.measure-level');
  await form.getByLabel('Compared with').selectOption({ label: 'Alder spring' });
  await type(form.getByLabel('Plus or minus'), plusMinus);
  await type(form.getByLabel('Pump on the bench is'), lower);
  await next(page, act, 4);
  await act(courseItem(page, 'Spur tank'));
  await next(page, act, 5);

  await act(page.locator('.files > summary'));
  await act(page.getByRole('button', { name: 'Print the site visit sheet' }));
  await page.locator('.visit-sheet').waitFor();
  await act(page.getByRole('button', { name: 'Close', exact: true }));
  await stop(page, 6, true).waitFor();
  await act(page.getByRole('button', { name: 'End', exact: true }));
  await page.locator('.guided-look').waitFor({ state: 'detached' });
  await showPanel(page, 'Answer');
  const verdicts = await tankVerdicts(page);
  // The smaller fall that was measured leaves it in doubt again, but the line round the knoll no longer fails.
  assert.notEqual(verdicts['tank-behind-knoll'], 'fails');
  assert.equal(verdicts['tank-spur'], 'fails');
}

export const cases = {
  'the guided look is walked in metres with the pointer': {
    options: { ...calm, locale: 'en-GB' },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByRole('button', { name: 'Metric', exact: true }).click();
      await walk(page, hands.pointer, { lower: '4.2 m', plusMinus: '2 cm' });
    },
  },

  'the guided look is walked in feet with the keyboard alone': {
    options: { ...calm, locale: 'en-US' },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await hands.keyboard(page.getByRole('button', { name: 'US', exact: true }));
      await walk(page, hands.keyboard, { lower: '13 ft 9 in', plusMinus: '1 in' });
    },
  },

  'the guided look speaks the units of the page and is left at any time': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByRole('button', { name: 'US', exact: true }).click();
      await page.getByRole('button', { name: 'Guided look', exact: true }).click();
      await assertAccessible(page, 'the first stop');
      for (const number of [1, 2, 3]) {
        await stop(page, number).waitFor();
        await page.getByRole('button', { name: 'Skip this stop' }).click();
      }
      assert.match(await stop(page, 4).textContent(), /13 ft 9 in/);
      await page.getByRole('button', { name: 'Metric', exact: true }).click();
      assert.match(await stop(page, 4).textContent(), /4\.2 m/);
      await page.locator('.guided-look h2').press('Escape');
      await page.locator('.guided-look').waitFor({ state: 'detached' });
      await page.getByRole('button', { name: 'Guided look', exact: true }).waitFor();
    },
  },
};
