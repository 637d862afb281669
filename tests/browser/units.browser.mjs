import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { root } from '../../scripts/lib/run-program.mjs';
import { eventually } from './steps/eventually.mjs';
import { mapAtRest } from './steps/map.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, courseItem, drawnIn, openDemo, savedPlan, showPanel } from './steps/planner.mjs';

/** Numbers with a unit of one system; what follows must end the unit. */
const METRIC = /\d[\u202f\u00a0 ]?(?:m|mm|km|L|m³|L\/min|L\/day|bar|kPa|m\/s|°C)(?![\w/³])/;
const US = /\d[\u202f\u00a0 ]?(?:ft|in|mil|mi|fl oz|gal|gal\/min|gal\/day|psi|ft\/s|°F)(?![\w/])/;

/** Every text and field of the page that shows a quantity, panel by panel; names, notes and sources are the user's or others'. */
async function shownTexts(page) {
  const texts = {};
  await showPanel(page, 'Answer');
  await page.locator('.answer details').evaluateAll((all) => {
    for (const details of all) details.open = true;
  });
  texts.answer = await quantitiesIn(page.locator('.answer'));
  for (const name of ['Alder spring', 'Standpipe', 'Pump on the bench', 'Spur tank', 'Gap trough', 'Supply line']) {
    await courseItem(page, name).click();
    await showPanel(page, 'Selected');
    texts[name] = await quantitiesIn(page.locator('.details'));
  }
  await showPanel(page, 'Inputs');
  texts.inputs = await quantitiesIn(page.locator('.inputs'));
  texts.course = await quantitiesIn(page.locator('.course'));
  await page.getByRole('slider', { name: 'Place along the profile' }).press('ArrowRight');
  texts.profile = await quantitiesIn(page.locator('.profile-pane'));
  texts.scale = await quantitiesIn(page.locator('.map-scale'));
  return texts;
}

const dataFile = async (name) => JSON.parse(await readFile(join(root, 'data', name), 'utf8'));
/** Pipes are sold and elevation models are made by the size in their names, whatever units are shown. */
const names = [
  ...(await dataFile('pipes.json')).series.map(({ label }) => label),
  ...(await dataFile('height-accuracy.json')).classes.map(({ title }) => title),
];

async function quantitiesIn(place) {
  const texts = await place.evaluate((within) => {
    const left = 'option, .source, .note, .course-name, h2, [role="tab"]';
    const texts = [];
    const walker = document.createTreeWalker(within, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      if (node.parentElement.closest(left) === null) texts.push(node.data);
    }
    const fields = [...within.querySelectorAll('input[data-value]')].map((input) => input.value);
    return [...texts, ...fields].filter((text) => /\d/.test(text));
  });
  return texts.filter((text) => !names.some((name) => text.includes(name)));
}

function assertUnits(texts, { wanted, unwanted }) {
  for (const [place, all] of Object.entries(texts)) {
    assert.deepEqual(
      all.filter((text) => unwanted.test(text)),
      [],
      `${place}: units of the other system`,
    );
    assert.ok(
      all.some((text) => wanted.test(text)),
      `${place}: found ${JSON.stringify(all)}, expected a unit of the chosen system`,
    );
  }
}

const values = (numbers) => Object.fromEntries(Object.entries(numbers).map(([name, { value }]) => [name, value]));

export const cases = {
  'another system of units changes every unit that is shown and no number of the plan': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      const before = drawnIn(await savedPlan(page));
      const metric = values(await answerNumbers(page));
      assert.equal(before.rillwright.units, 'metric');
      assertUnits(await shownTexts(page), { wanted: METRIC, unwanted: US });

      await page.getByRole('button', { name: 'US', exact: true }).click();
      await eventually(async () => assert.match(await page.locator('.map-scale').textContent(), /ft/));
      assertUnits(await shownTexts(page), { wanted: US, unwanted: METRIC });
      await showPanel(page, 'Answer');
      assert.deepEqual(values(await answerNumbers(page)), metric);
      const after = drawnIn(await savedPlan(page));
      assert.equal(after.rillwright.units, 'us');
      after.rillwright.units = 'metric';
      assert.deepEqual(after, before);

      await page.getByRole('button', { name: 'Metric', exact: true }).click();
      assert.deepEqual(drawnIn(await savedPlan(page)), before);
    },
  },
};
