import assert from 'node:assert/strict';
import { demoDem, demoPicture } from './command-line.mjs';
import { eventually } from './eventually.mjs';
import { dropFiles, fileOf } from './files.mjs';
import { clickMap, mapAtRest, placePoint, pointAt, zoomIn } from './map.mjs';
import { openEmpty, reckoned, showPanel } from './planner.mjs';
import { showTable } from './tables.mjs';

/** The three jobs from an empty page to their result. `look` is told of the moments that are worth a picture. */

/** Places in the invented valley of the demo. */
export const places = {
  spring: [-39.99740599, 38.00181771],
  standpipe: [-39.99661935, 38.00134221],
  pump: [-39.99642252, 38.00110504],
  shoulder: [-39.99605816, 38.00195531],
  track: [-39.9951, 38.002],
  spur: [-39.99655, 38.00205],
  meadow: [-39.99761878, 38.00113095],
};

/** An empty page with the demo's elevation and aerial picture dropped on it, near enough to place things. */
export async function bringGround(page, origin, { look, zoom = 16.5 }) {
  await openEmpty(page, origin);
  await mapAtRest(page);
  await look('empty');
  await dropFiles(page, [await fileOf(demoDem)]);
  await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
  await dropFiles(page, [await fileOf(demoPicture)], 'picture');
  await page.getByRole('button', { name: 'Other picture…' }).waitFor();
  await zoomIn(page, zoom);
}

async function type(scope, label, text) {
  const field = scope.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
}

/** Asks for a line in the list of what is missing, looks at what is proposed, and lays it. */
async function layProposed(page, name) {
  await page
    .getByRole('button', { name: `propose a ${name}`, exact: true })
    .first()
    .click();
  await page.locator('.proposal[data-state="found"]').waitFor();
  await page.getByRole('button', { name: 'Use this line', exact: true }).click();
  await page.locator('.proposal').waitFor({ state: 'detached' });
}

/** Gives the line that was laid last a pipe of the handbook. */
async function choosePipe(page, line, [series, size]) {
  await page.locator('.course-item').filter({ hasText: line }).last().click();
  await showPanel(page, 'Selected');
  await page.getByLabel('Series').selectOption(series);
  await page.getByLabel('Size').selectOption(size);
}

/** What the source gives, timed with a bucket, and who drinks. */
async function sayWaterAndHerd(page) {
  await showPanel(page, 'Inputs');
  await page.getByRole('button', { name: 'Add a bucket test' }).click();
  await type(page, 'Container', '10 L');
  await type(page, 'Times to fill it', '36 38 35 39 37');
  await page.getByLabel('Add animals').selectOption('beef-cow-calf-pair-aafc');
  await type(page, 'How many', '19');
}

/** Job 1: plan a system from the aerial view before a site visit. Ends with the answer; the sheet is left to the caller. */
export async function planBeforeVisit(page, origin, { look }) {
  await bringGround(page, origin, { look });
  await placePoint(page, 'Place the source', places.spring);
  await sayWaterAndHerd(page);
  await look('source');

  await page.getByRole('button', { name: 'Place the pump', exact: true }).click();
  await page.locator('.map-view[data-tool="place"]').waitFor();
  await pointAt(page, places.pump);
  const note = page.locator('.map-note');
  await eventually(async () => assert.match(await note.textContent(), /below the source/));
  await look('fall-at-pointer');
  await clickMap(page, places.pump);
  await page.locator('.map-view[data-tool="select"]').waitFor();
  await placePoint(page, 'Place the standpipe', places.standpipe);
  await placePoint(page, 'Place the tank', places.shoulder);

  await page.getByRole('button', { name: 'propose a supply line', exact: true }).click();
  await page.locator('.proposal[data-state="found"]').waitFor();
  await mapAtRest(page);
  await look('proposed');
  await page.getByRole('button', { name: 'Use this line', exact: true }).click();
  await page.locator('.proposal').waitFor({ state: 'detached' });
  await layProposed(page, 'drive pipe');
  await layProposed(page, 'delivery line');
  await choosePipe(page, 'Supply 1', ['PE100 SDR 17', '50']);
  await choosePipe(page, 'Drive 1', ['Galvanised steel Schedule 40', '1-1/4']);
  await choosePipe(page, 'Delivery 1', ['PE100 SDR 11', '25']);

  await showTable(page, 'Pump size');
  await page.locator('.pump-sizes').waitFor();
  await look('sizes');
  await page
    .locator('.pump-sizes tbody[data-verdict="holds"]')
    .last()
    .getByRole('button', { name: /^Use this pump/ })
    .click();
  await showPanel(page, 'Answer');
  await reckoned(page);
  await mapAtRest(page);
  await look('answer');
}

/** Job 2: estimate the pipe for a pasture trough. */
export async function pipeForTrough(page, origin, { look }) {
  await bringGround(page, origin, { look, zoom: 17 });
  await placePoint(page, 'Place the source', places.spring);
  await placePoint(page, 'A trough', places.meadow);
  await showTable(page, 'Pipe');
  await page.getByRole('button', { name: /^Propose a Gravity line/ }).click();
  await page.locator('.proposal[data-state="found"]').waitFor();
  await look('proposed');
  await page.getByRole('button', { name: 'Use this line', exact: true }).click();
  await page.locator('.proposal').waitFor({ state: 'detached' });
  await choosePipe(page, 'Gravity 1', ['PE100 SDR 11', '32']);
  await showTable(page, 'Pipe');
  const panel = page.locator('.jobs');
  await type(panel, 'Currency', 'crowns');
  await type(panel, 'Extra for waste', '10 %');
  await type(panel, 'Price of a metre of PE100 SDR 11 32 mm', '1.50');
  await eventually(async () => assert.match(await page.locator('[data-field="total"]').textContent(), /crowns/));
  await look('bill');
}

/** Job 3: check the lift to each candidate tank spot, on a plan whose pump is placed. */
export async function liftToCandidates(page, origin, { look }) {
  await planBeforeVisit(page, origin, { look: async () => undefined });
  await showTable(page, 'Tanks');
  for (const place of [places.spur, places.track]) {
    await page.getByRole('button', { name: 'Another possible place', exact: true }).click();
    await page.locator('.map-view[data-tool="place"]').waitFor();
    await clickMap(page, place);
    await page.locator('.map-view[data-tool="select"]').waitFor();
    await showTable(page, 'Tanks');
    await page
      .locator('.candidates')
      .getByRole('button', { name: /^Propose a delivery line/ })
      .click();
    await page.locator('.proposal[data-state="found"]').waitFor();
    await page.getByRole('button', { name: 'Use this line', exact: true }).click();
    await page.locator('.proposal').waitFor({ state: 'detached' });
  }
  await page.getByLabel('Show their profiles over each other').check();
  await page.getByRole('button', { name: 'Wider' }).click();
  await reckonedTable(page);
  await mapAtRest(page);
  await look('candidates');
}

/** Every candidate of the table has its numbers, and they are those of the draws. */
async function reckonedTable(page) {
  await page.locator('.plan-verdict[data-busy="false"]').waitFor();
  await eventually(async () => {
    const empty = await page.locator('[data-candidate] [data-field="delivery-per-day"][data-value=""]').count();
    assert.equal(empty, 0);
  });
}
