import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { assertAccessible } from './steps/accessibility.mjs';
import { demoDem, demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { dropHandle, putFile, textOnDisk } from './steps/handles.mjs';
import { keptAs, kill, notice } from './steps/keeping.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, openDemo, openEmpty, reckoned } from './steps/planner.mjs';

const planName = (page) => page.getByLabel('Name of the plan');
const nameIn = (text) => JSON.parse(text).rillwright.name;
const nameOnDisk = async (page) => nameIn(await textOnDisk(page, 'farm.geojson'));

async function rename(page, name) {
  await planName(page).fill(name);
  await planName(page).press('Enter');
}

/** The demo's plan under another name, as a file. */
async function planNamed(name) {
  const plan = JSON.parse(await readFile(demoPlan, 'utf8'));
  plan.rillwright.name = name;
  return JSON.stringify(plan);
}

async function openFarm(page, name, options) {
  await dropHandle(page, 'farm.geojson', options);
  await eventually(async () => assert.equal(await planName(page).inputValue(), name));
}

const save = (page) => page.getByRole('button', { name: /^Save plan/ }).click();

/** A plan opened by its handle and changed here; meanwhile the file was changed on disk. */
async function changedOnBothSides(page, origin) {
  await openEmpty(page, origin);
  await putFile(page, 'farm.geojson', await planNamed('As opened'));
  await openFarm(page, 'As opened');
  await rename(page, 'Changed here');
  await putFile(page, 'farm.geojson', await planNamed('Changed on disk'));
  await save(page);
  await notice(page, 'changed-on-disk').getByText('farm.geojson').waitFor();
  assert.equal(await nameOnDisk(page), 'Changed on disk');
}

const answer = (page, words) => notice(page, 'changed-on-disk').getByRole('button', { name: words }).click();

export const cases = {
  'a plan that was dropped with its handle is saved where it came from, again and again': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await putFile(page, 'farm.geojson', await planNamed('As opened'));
      await openFarm(page, 'As opened');
      for (const name of ['Once', 'Twice']) {
        await rename(page, name);
        await save(page);
        await eventually(async () => assert.equal(await nameOnDisk(page), name));
        await page.getByRole('button', { name: 'Save plan', exact: true }).waitFor();
      }
      assert.equal(await notice(page, 'changed-on-disk').count(), 0);
    },
  },

  'a file that was changed on disk is written over only when the user says so': {
    options: calm,
    run: async ({ page, origin }) => {
      await changedOnBothSides(page, origin);
      await assertAccessible(page, 'changed on disk');
      await answer(page, 'Not now');
      assert.equal(await nameOnDisk(page), 'Changed on disk');
      await save(page);
      await answer(page, 'Overwrite it');
      await eventually(async () => assert.equal(await nameOnDisk(page), 'Changed here'));
      await notice(page, 'changed-on-disk').waitFor({ state: 'detached' });
    },
  },

  'what was changed on disk is looked at beside the plan, or the plan is saved as another file': {
    options: calm,
    run: async ({ page, origin }) => {
      await changedOnBothSides(page, origin);
      await answer(page, 'Look at what is on disk');
      assert.equal(await planName(page).inputValue(), 'Changed on disk');
      const strip = page.getByRole('navigation', { name: 'Alternatives' });
      await strip.getByRole('button', { name: /^Changed here/ }).click();
      const waiting = page.waitForEvent('download');
      await save(page);
      assert.equal((await waiting).suggestedFilename(), 'Changed-here.geojson');
      assert.equal(await nameOnDisk(page), 'Changed on disk');
    },
  },

  'a plan saved as another file leaves the one on disk alone': {
    options: calm,
    run: async ({ page, origin }) => {
      await changedOnBothSides(page, origin);
      const waiting = page.waitForEvent('download');
      await answer(page, 'Save as another file');
      assert.equal((await waiting).suggestedFilename(), 'Changed-here.geojson');
      assert.equal(await nameOnDisk(page), 'Changed on disk');
    },
  },

  'a file that is gone from the disk is said to be, and nothing is lost': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await putFile(page, 'farm.geojson', await planNamed('As opened'));
      await openFarm(page, 'As opened');
      await rename(page, 'Still here');
      await page.evaluate(async () => (await navigator.storage.getDirectory()).removeEntry('farm.geojson'));
      await save(page);
      await notice(page, 'not-written').getByText('farm.geojson').waitFor();
      assert.equal(await planName(page).inputValue(), 'Still here');
      await page.getByRole('button', { name: 'Save plan (unsaved changes)' }).waitFor();
    },
  },

  'a file that is open in two tabs is said to be in both, by its handle or by name, size and time': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openEmpty(page, origin);
      await putFile(page, 'farm.geojson', await planNamed('Shared'));
      await openFarm(page, 'Shared');
      for (const withHandle of [true, false]) {
        const other = await context.newPage();
        await openEmpty(other, origin);
        await openFarm(other, 'Shared', { withHandle });
        await notice(other, 'same-file').getByText('farm.geojson').waitFor();
        await notice(page, 'same-file').waitFor();
        await other.getByRole('button', { name: 'New', exact: true }).click();
        await notice(page, 'same-file').waitFor({ state: 'detached' });
        await notice(other, 'same-file').waitFor({ state: 'detached' });
        await other.close();
      }
    },
  },

  'a plan that two tabs changed is not written over by the second one to save': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openEmpty(page, origin);
      await putFile(page, 'farm.geojson', await planNamed('Shared'));
      await openFarm(page, 'Shared');
      const other = await context.newPage();
      await openEmpty(other, origin);
      await openFarm(other, 'Shared');
      await rename(page, 'Of the first tab');
      await rename(other, 'Of the second tab');
      await save(page);
      await eventually(async () => assert.equal(await nameOnDisk(page), 'Of the first tab'));
      await save(other);
      await notice(other, 'changed-on-disk').waitFor();
      assert.equal(await nameOnDisk(page), 'Of the first tab');
    },
  },

  'a place that the user chooses on disk is where the plan is saved from then on': {
    options: calm,
    run: async ({ page, origin }) => {
      await page.addInitScript(() => {
        window.showSaveFilePicker = async () =>
          (await navigator.storage.getDirectory()).getFileHandle('farm.geojson', { create: true });
      });
      await openDemo(page, origin);
      await rename(page, 'First');
      await page.getByText('Import, export, print', { exact: true }).press('Enter');
      await page.getByRole('button', { name: 'Save the plan to a file of your choice…' }).click();
      await eventually(async () => assert.equal(await nameOnDisk(page), 'First'));
      await rename(page, 'Second');
      await save(page);
      await eventually(async () => assert.equal(await nameOnDisk(page), 'Second'));
    },
  },

  'elevation too large to be kept is opened again by its handle with the work, unless it changed on disk': {
    options: calm,
    run: async ({ page, context, origin }) => {
      const large = 65 * 1024 * 1024;
      await openEmpty(page, origin);
      await putFile(page, 'large.tif', await readFile(demoDem), large);
      await putFile(page, 'farm.geojson', await planNamed('As opened'));
      await openFarm(page, 'As opened');
      await dropHandle(page, 'large.tif');
      await reckoned(page);
      await rename(page, 'On large ground');
      await keptAs(page, 'On large ground');
      await reckoned(page);
      const numbers = await answerNumbers(page);
      await kill(page);
      const next = await context.newPage();
      await openEmpty(next, origin);
      await notice(next, 'found').getByRole('button', { name: 'Open it' }).click();
      await reckoned(next);
      assert.deepEqual(await answerNumbers(next), numbers);
      await kill(next);
      const last = await context.newPage();
      await openEmpty(last, origin);
      await putFile(last, 'large.tif', await readFile(demoDem), large + 1);
      await notice(last, 'found').getByRole('button', { name: 'Open it' }).click();
      await notice(last, 'files-missing').getByText('large.tif').waitFor();
    },
  },
};
