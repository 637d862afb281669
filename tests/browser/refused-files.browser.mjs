import assert from 'node:assert/strict';
import { demoDem, demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { chooseFiles, dropFiles, fileOf } from './steps/files.mjs';
import { answerNumbers, tankVerdicts } from './steps/numbers.mjs';
import { calm, canUndo, courseItem, openDemo, openEmpty, savedPlan, showPanel } from './steps/planner.mjs';

const dem = await fileOf(demoDem);
const plan = await fileOf(demoPlan);

/** Broken elevation files, each broken in its own way. */
const brokenDems = [
  { name: 'half-copied.tif', bytes: dem.bytes.subarray(0, Math.floor(dem.bytes.length / 2)) },
  { name: 'portrait.tif', bytes: Buffer.from('ffd8ffe000104a46494600010100000100010000ffd9', 'hex') },
  { name: 'notes.tif', bytes: Buffer.from('Heights are on the other stick.\n'.repeat(40)) },
  { name: 'nothing.tif', bytes: Buffer.alloc(0) },
];

/** A sentence that names the file, what was found in it and what was expected. */
async function assertRefused(card, name) {
  await card.waitFor();
  const text = await card.textContent();
  assert.ok(text.includes(name), `found “${text}”, expected it to name ${name}`);
  assert.match(text, /found .+; expected .+\./i);
  await card.getByRole('button', { name: 'OK', exact: true }).click();
  await card.waitFor({ state: 'detached' });
}

/** Moves the pump by a tenth of a thousandth of a degree: an elevation file that is still open answers with new numbers. */
async function terrainStillAnswers(page) {
  const before = await answerNumbers(page);
  await courseItem(page, 'Pump on the bench').click();
  await showPanel(page, 'Selected');
  const latitude = page.getByRole('group', { name: 'Position of Pump on the bench' }).getByLabel('Latitude');
  await latitude.fill('38.001');
  await latitude.press('Enter');
  await showPanel(page, 'Answer');
  await eventually(async () => {
    const now = await answerNumbers(page);
    assert.notEqual(now.fall.value, before.fall.value);
    assert.notEqual(now.fall.value, null);
  });
}

export const cases = {
  'broken elevation files are refused with a sentence; plan and terrain stay as they were': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const numbers = await answerNumbers(page);
      const verdicts = await tankVerdicts(page);
      const saved = await savedPlan(page);
      for (const file of brokenDems) {
        await dropFiles(page, [file]);
        await assertRefused(page.locator('[data-state="elevation-refused"]'), file.name);
        assert.deepEqual(await answerNumbers(page), numbers, file.name);
        assert.deepEqual(await tankVerdicts(page), verdicts, file.name);
      }
      assert.equal(await savedPlan(page), saved);
      assert.equal(await canUndo(page), false);
      await terrainStillAnswers(page);
    },
  },

  'a broken elevation file on an empty planner leaves it ready for a whole one': {
    options: calm,
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await dropFiles(page, brokenDems.slice(0, 1));
      await assertRefused(page.locator('[data-state="elevation-refused"]'), brokenDems[0].name);
      await page.getByRole('heading', { name: 'Bring the shape of the ground' }).waitFor();
      await chooseFiles(page, 'Choose an elevation file…', [dem]);
      await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
    },
  },

  'a broken plan file is refused with its problems; the open plan stays': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      const numbers = await answerNumbers(page);
      const saved = await savedPlan(page);
      for (const { name, bytes, says } of brokenPlans()) {
        await chooseFiles(page, 'Open plan…', [{ name, bytes }]);
        const card = page.locator('header [role="alert"]');
        await card.waitFor();
        assert.match(await card.textContent(), says, name);
        await assertRefused(card, name);
        assert.deepEqual(await answerNumbers(page), numbers, name);
      }
      assert.equal(await savedPlan(page), saved);
    },
  },
};

function brokenPlans() {
  const changed = (change) => {
    const copy = JSON.parse(plan.bytes.toString('utf8'));
    change(copy);
    return Buffer.from(JSON.stringify(copy));
  };
  return [
    { name: 'torn.geojson', bytes: plan.bytes.subarray(0, 700), says: /end of the file/ },
    { name: 'later.geojson', bytes: changed((p) => Object.assign(p.rillwright, { version: 99 })), says: /99/ },
    {
      name: 'loose-end.geojson',
      bytes: changed((p) => {
        p.features.find(({ id }) => id === 'drive').properties.to = 'nowhere';
      }),
      says: /nowhere/,
    },
    {
      name: 'two-faults.geojson',
      bytes: changed((p) => {
        p.features.find(({ id }) => id === 'tank-spur').properties.volume_L = -5;
        p.rillwright.colour = 'green';
      }),
      says: /-5[\s\S]*colour|colour[\s\S]*-5/,
    },
  ];
}
