import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { demoDem } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { dropFiles, fileOf } from './steps/files.mjs';
import { lengthOf } from './steps/ground.mjs';
import { mapAtRest, placePoint, zoomIn } from './steps/map.mjs';
import { calm, openEmpty, savedPlan, showPanel } from './steps/planner.mjs';
import { downloaded, showTable, typeInto } from './steps/tables.mjs';

/** Places in the invented valley of the demo: a spring, and a meadow below it. */
const spring = [-39.99740599, 38.00181771];
const meadow = [-39.99761878, 38.00113095];

const rowsOf = (text) =>
  text
    .trimEnd()
    .split('\r\n')
    .map((line) => line.split(','));

async function lineOf(page, item) {
  const row = page.locator(`.bill [data-item="${item}"]`);
  const number = async (field) => Number(await row.locator(`[data-field="${field}"]`).getAttribute('data-value'));
  const cost = async () => (await row.locator('[data-field="cost"]').textContent()).trim();
  return { length: await number('length'), toBuy: await number('to-buy'), cost: await cost() };
}

export const cases = {
  'a trough above the spring gets no line, and the page says where and how high the ground stands': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await mapAtRest(page);
      await dropFiles(page, [await fileOf(demoDem)]);
      await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
      await zoomIn(page, 16);
      await placePoint(page, 'Place the source', spring);
      await placePoint(page, 'A trough', [-39.9961, 38.0019]);
      await showTable(page, 'Pipe');
      await page.getByRole('button', { name: /^Propose a Gravity line/ }).click();
      const said = page.locator('.proposal[data-state="none"]');
      await said.waitFor();
      assert.match(
        await said.textContent(),
        /No line falls all the way\. .* 38\.00\d+° N, 39\.99\d+° W stands \d+\.\d\d\u202fm too high/,
      );
      await page.getByRole('button', { name: 'OK', exact: true }).click();
      await said.waitFor({ state: 'detached' });
    },
  },
  'the pipe for a trough is proposed, counted and priced from an empty page, and the table that is saved says the same':
    {
      options: { ...calm, viewport: { width: 1440, height: 900 } },
      run: async ({ page, origin }) => {
        await openEmpty(page, origin);
        await mapAtRest(page);
        await dropFiles(page, [await fileOf(demoDem)]);
        await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
        await page.getByRole('button', { name: 'Fold away' }).click();
        await zoomIn(page, 17);
        await placePoint(page, 'Place the source', spring);
        await placePoint(page, 'A trough', meadow);

        await showTable(page, 'Pipe');
        await page.getByRole('button', { name: /^Propose a Gravity line/ }).click();
        await page.locator('.proposal[data-state="found"]').waitFor();
        assert.deepEqual(
          JSON.parse(await savedPlan(page)).features.length,
          2,
          'what is only proposed is not in the plan',
        );
        await assertAccessible(page, 'a line is proposed');
        await page.getByRole('button', { name: 'Use this line', exact: true }).click();
        await page.locator('.proposal').waitFor({ state: 'detached' });
        const [line] = JSON.parse(await savedPlan(page)).features.filter(
          ({ geometry }) => geometry.type === 'LineString',
        );

        await showPanel(page, 'Selected');
        await page.getByLabel('Series').selectOption('PE100 SDR 11');
        await page.getByLabel('Size').selectOption('32');
        await showTable(page, 'Pipe');
        await typeInto(page, 'Currency', 'crowns');
        await typeInto(page, 'Extra for waste', '10 %');
        const item = 'pe100-sdr11-32';
        await typeInto(page, 'Price of a metre of PE100 SDR 11 32 mm', '1.50');
        await eventually(async () => assert.notEqual((await lineOf(page, item)).cost, '–'));

        const flow = page.locator(`.sizes [data-row="${item}"] [data-field="flow"]`);
        assert.ok(Number(await flow.getAttribute('data-value')) > 0, 'a line that was proposed is to run');

        const cut = await lineOf(page, item);
        const level = lengthOf(line.geometry.coordinates);
        assert.ok(
          cut.length >= level - 0.01 && cut.length < 1.1 * level,
          `found ${cut.length} m over ${level} m level`,
        );
        assert.ok(Math.abs(cut.toBuy - 1.1 * cut.length) < 1e-6);
        assert.equal(cut.cost, `${(1.5 * cut.toBuy).toFixed(2)} crowns`);

        await typeInto(page, 'Length of a coil', '50 m');
        const coils = Math.ceil(cut.toBuy / 50);
        await eventually(async () =>
          assert.equal((await lineOf(page, item)).cost, `${(coils * 75).toFixed(2)} crowns`),
        );
        await typeInto(page, 'Price of one float valve of a trough', '20');
        const total = `${(coils * 75 + 20).toFixed(2)} crowns`;
        await eventually(async () =>
          assert.match(await page.locator('[data-field="total"]').textContent(), new RegExp(total)),
        );

        await assertAccessible(page, 'the bill has prices');
        const { name, text } = await downloaded(page, 'Save as CSV');
        assert.equal(name, 'New-plan-pipe.csv');
        const rows = rowsOf(text);
        const pipe = rows.find(([label]) => label === 'PE100 SDR 11 32 mm');
        assert.deepEqual(
          pipe.slice(1, 4),
          [cut.length.toFixed(1), cut.toBuy.toFixed(1), String(coils)].map((n) => String(n).replace(/\.0$/, '')),
        );
        assert.equal(Number(rows.find(([label]) => label === 'total')[5]), coils * 75 + 20);

        await page.getByRole('button', { name: 'US', exact: true }).click();
        const perFoot = page.locator('.jobs').getByLabel('Price of a foot of PE100 SDR 11 32 mm', { exact: true });
        assert.ok(Math.abs(Number(await perFoot.inputValue()) - 1.5 * 0.3048) < 1e-4);
      },
    },
};
