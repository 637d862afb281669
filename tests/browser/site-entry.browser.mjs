import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { calm, openDemo, savedPlan } from './steps/planner.mjs';

const telephone = { ...calm, viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

async function openSite(page, origin) {
  await openDemo(page, origin);
  await page.locator('details.more > summary', { hasText: 'Menu' }).tap();
  await page.getByRole('button', { name: 'On site…' }).tap();
  const dialog = page.getByRole('dialog');
  await dialog.getByText(/^On site: 1 of \d+$/).waitFor();
  return dialog;
}

/** Goes on from screen to screen until one shows something. */
async function turnTo(dialog, wanted) {
  while ((await wanted.count()) === 0) await dialog.getByRole('button', { name: 'Next', exact: true }).tap();
}

/** The screen of the level book, whatever is to be levelled first. */
const turnToBook = (dialog, asks) => turnTo(dialog, dialog.getByRole('heading', { level: 3, name: asks }));

/** Every target of the screen is large enough for a thumb in a glove. */
async function assertLarge(dialog, state) {
  const small = await dialog
    .locator('button, input')
    .evaluateAll((all) =>
      all
        .map((each) => ({ words: each.textContent || each.id, height: each.getBoundingClientRect().height }))
        .filter(({ height }) => height > 0 && height < 44),
    );
  assert.deepEqual(small, [], state);
}

async function read(dialog, question, reading) {
  await dialog.getByRole('heading', { name: question }).waitFor();
  await dialog.getByLabel('Reading', { exact: true }).fill(reading);
  await dialog.getByRole('button', { name: 'Enter', exact: true }).tap();
}

/** The plan as it is in the file that the page would save; the dialog is closed before. */
async function planAfter(page, dialog) {
  await dialog.getByRole('button', { name: 'Close', exact: true }).tap();
  if (!(await page.getByRole('button', { name: /^Save plan/ }).isVisible())) {
    await page.locator('details.more > summary', { hasText: 'Menu' }).tap();
  }
  return JSON.parse(await savedPlan(page)).rillwright;
}

export const cases = {
  'on a telephone fillings are timed by one large button, in the order of what to measure': {
    options: telephone,
    run: async ({ page, origin }) => {
      const dialog = await openSite(page, origin);
      await dialog.getByRole('heading', { level: 2, name: /bucket test at Alder spring/ }).waitFor();
      await assertAccessible(page, 'entry on site');
      await assertLarge(dialog, 'fillings');
      for (const count of [1, 2]) {
        await dialog.getByRole('button', { name: 'Start: the water runs in' }).tap();
        await page.waitForTimeout(300);
        await dialog.getByRole('button', { name: /^Full: stop/ }).tap();
        await dialog
          .getByRole('button', { name: new RegExp(`Take the ${count === 1 ? 'filling' : '2 fillings'}`) })
          .waitFor();
      }
      await dialog.getByRole('button', { name: 'Remove the last filling' }).tap();
      await dialog.getByRole('button', { name: 'Take the filling into the plan' }).tap();
      await dialog.getByText('Five fillings tell how evenly it runs.').waitFor();
      const { yield_readings: readings } = await planAfter(page, dialog);
      assert.equal(readings.length, 2);
      assert.equal(readings[1].times_s.length, 1);
      assert.ok(readings[1].times_s[0] > 0);
    },
  },

  'a level book is filled in reading by reading, outlives the page, closes, and becomes levels with their doubt': {
    options: telephone,
    run: async ({ page, origin }) => {
      let dialog = await openSite(page, origin);
      await turnToBook(dialog, 'Where does the staff stand first?');
      await dialog.getByRole('button', { name: 'Alder spring', exact: true }).tap();
      await read(dialog, 'Read back to Alder spring', '0.512');
      await assertLarge(dialog, 'next place');
      await dialog.getByRole('button', { name: 'A turning point' }).tap();
      await read(dialog, 'Read on to turning point 2', '2.9');
      await read(dialog, 'Read back to turning point 2', '0.7');
      await dialog.getByRole('button', { name: 'Pump on the bench' }).tap();
      await assertLarge(dialog, 'a reading');
      await read(dialog, 'Read on to Pump on the bench', '2.9');
      await assertAccessible(page, 'a level book');
      // The phone may be dropped.
      await page.reload();
      dialog = await openSite(page, origin);
      await turnToBook(dialog, 'Go on from Pump on the bench?');
      await dialog.getByRole('button', { name: 'Yes: the level moves, the staff stays' }).tap();
      await read(dialog, 'Read back to Pump on the bench', '4.7');
      await dialog.getByRole('button', { name: 'Alder spring', exact: true }).tap();
      await read(dialog, 'Read on to Alder spring', '0.11');
      await dialog.getByRole('button', { name: 'No: this was the last' }).tap();
      await dialog.getByText(/It closes with 0\.00[12].m over 3 stands of the level: as careful readings do/).waitFor();
      await dialog.getByText(/^Pump on the bench: 4\.588.m below Alder spring ±/).waitFor();
      await dialog
        .getByText(/before: /)
        .first()
        .waitFor();
      await assertAccessible(page, 'a level book worked out');
      await assertLarge(dialog, 'a level book worked out');
      await dialog.getByRole('button', { name: 'Take the 2 levels into the plan' }).tap();
      await dialog.getByRole('heading', { name: 'Where does the staff stand first?' }).waitFor();
      const { measurements } = await planAfter(page, dialog);
      assert.equal(measurements.length, 2);
      // Backs 0.512 and 0.7 less fores 2.9 and 2.9.
      assert.deepEqual(
        { ...measurements[0], plus_minus_m: 0 },
        {
          kind: 'difference',
          from: 'spring',
          to: 'pump',
          rise_m: -4.588,
          plus_minus_m: 0,
        },
      );
    },
  },

  'the phone’s position is shown with its doubt beside the plan’s': {
    options: {
      ...telephone,
      permissions: ['geolocation'],
      geolocation: { latitude: 38.0018, longitude: -39.9974, accuracy: 6 },
    },
    run: async ({ page, origin }) => {
      const dialog = await openSite(page, origin);
      await turnTo(dialog, dialog.getByRole('heading', { level: 2, name: 'Where Alder spring is' }));
      await dialog.getByRole('button', { name: 'Find my position' }).tap();
      await dialog.getByText(/^±6\.?0?0?.m/).waitFor();
      await dialog.getByText(/Ground at Alder spring in the plan/).waitFor();
      await assertAccessible(page, 'a position on site');
      await assertLarge(dialog, 'a position');
      await dialog.getByRole('button', { name: 'Move Alder spring to the phone’s position' }).tap();
      await dialog.getByText(/^0\.0.m$/).waitFor();
    },
  },
};
