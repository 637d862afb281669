import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { eventually } from './steps/eventually.mjs';
import { mapAtRest, placePoint } from './steps/map.mjs';
import { numberOf } from './steps/numbers.mjs';
import { calm, courseItem, openDemo, savedPlan, showPanel } from './steps/planner.mjs';
import { showTable, typeInto } from './steps/tables.mjs';

const order = (page) =>
  page.locator('[data-candidate]').evaluateAll((all) => all.map(({ dataset }) => dataset.candidate));

async function numbers(page, field) {
  const values = await page
    .locator(`[data-candidate] [data-field="${field}"]`)
    .evaluateAll((cells) => cells.map(({ dataset }) => (dataset.value === '' ? null : Number(dataset.value))));
  return values;
}

const standings = async (page) =>
  Object.fromEntries(
    JSON.parse(await savedPlan(page))
      .features.filter(({ properties }) => properties.role === 'tank')
      .map(({ id, properties }) => [id, properties.standing]),
  );

const telephone = { width: 390, height: 844 };

/** Every table in one width and one set of colours. */
function walk(viewport, colorScheme) {
  return {
    options: { ...calm, viewport, colorScheme },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      for (const name of ['Tanks', 'Pipe', 'Pump size', 'The year']) {
        await showTable(page, name);
        if (name === 'The year') await page.getByRole('button', { name: 'Begin with summer and winter' }).click();
        await assertAccessible(page, `tables, ${name}`);
        const wide = await page.locator('.tab-panel').evaluate((panel) => panel.scrollWidth - panel.clientWidth);
        assert.equal(wide, 0, `${name} reaches beyond its panel by ${wide} px`);
      }
    },
  };
}

export const cases = {
  'three candidates are put in order, one is kept and the others are set aside with a reason': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await showTable(page, 'Tanks');
      for (const [column, field, sign] of [
        ['Lift', 'lift', 1],
        ['Highest lift on the way', 'governing-lift', 1],
        ['Arrives a day', 'delivery-per-day', -1],
      ]) {
        await page.locator('.candidates thead').getByRole('button', { name: column, exact: true }).click();
        const values = await numbers(page, field);
        assert.deepEqual(
          values,
          values.toSorted((one, other) => sign * (one - other)),
          column,
        );
      }
      const [first] = await order(page);

      const kept = page.locator(`[data-candidate="${first}"]`);
      await kept.getByRole('button', { name: 'Chosen', exact: true }).click();
      const others = (await order(page)).filter((id) => id !== first);
      for (const id of others) {
        await page.locator(`[data-candidate="${id}"]`).getByRole('button', { name: 'Ruled out' }).click();
      }
      await typeInto(page, 'Why, for Tank behind the knoll', 'Too high a way there.');
      assert.deepEqual(Object.values(await standings(page)).toSorted(), ['kept', 'set-aside', 'set-aside']);
      assert.equal((await standings(page))[first], 'kept');
      assert.match(await savedPlan(page), /Too high a way there\./);

      await showTable(page, 'Pipe');
      const bill = await page.locator('.bill').first().textContent();
      assert.match(bill, /Delivery to the shoulder/);
      assert.doesNotMatch(bill, /Delivery over the knoll/);
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      assert.equal(Object.values(await standings(page)).filter((each) => each === 'set-aside').length, 1);
    },
  },
  'a new candidate gets a proposed line, looked at before it is laid, and its profile lies over the others': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await mapAtRest(page);
      await showTable(page, 'Tanks');
      await placePoint(page, 'Another possible place', [-39.9955, 38.0019]);
      const fresh = page.locator('[data-candidate]').filter({ hasText: 'Tank 1' });
      await fresh.getByRole('button', { name: 'Propose a delivery line' }).click();
      await page.locator('.proposal[data-state="found"]').waitFor();
      await eventually(async () => assert.ok((await numberOf(fresh, 'delivery-per-day')) > 0));
      await page.getByRole('button', { name: 'Discard' }).click();
      await eventually(async () => assert.match(await fresh.textContent(), /no line yet/));

      await fresh.getByRole('button', { name: 'Propose a delivery line' }).click();
      await page.getByRole('button', { name: 'Use this line', exact: true }).click();
      await page.locator('.proposal').waitFor({ state: 'detached' });
      await eventually(async () => assert.ok((await numberOf(fresh, 'length')) > 50));
      await page.getByLabel('Show their profiles over each other').check();
      await eventually(async () =>
        assert.equal(
          await page.locator('.profile-figure .pipe.delivery').count(),
          4,
          'lines of delivery in the profile',
        ),
      );
      assert.equal(await page.locator('.profile-figure .pipe.delivery.main').count(), 1);
    },
  },
  'a size of pump is taken into the sheet and the standpipe is stood where it can stand': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await showTable(page, 'Pump size');
      assert.match(await page.locator('.job').textContent(), /at the efficiency of published rams/);
      await page
        .locator('[data-size="25"]')
        .getByRole('button', { name: /^Use this pump/ })
        .click();
      assert.match(await savedPlan(page), /"label": "1 in ram, computer estimate"/);

      await courseItem(page, 'Standpipe').click();
      await showPanel(page, 'Selected');
      const before = await page.locator('.details').textContent();
      const [, best] = /Best at ([\d.]+)\u202fm/.exec(before) ?? [];
      assert.ok(best !== undefined, `found no best place in ${before}`);
      await page.getByRole('button', { name: 'Stand it there' }).click();
      await courseItem(page, 'Drive pipe').click();
      await eventually(async () => {
        const length = await numberOf(page.locator('.details'), 'slope');
        assert.ok(Math.abs(length - Number(best)) < 0.3, `found a drive pipe of ${length} m, expected ${best} m`);
      });
    },
  },
  'two pumps of a size are taken side by side, and a trough gets its share of the herd': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await showTable(page, 'Pump size');
      const two = page.locator('[data-size]').getByRole('button', { name: /^Use two of/ });
      await two.first().click();
      const { rillwright } = JSON.parse(await savedPlan(page));
      assert.equal(rillwright.pump.count, 2);
      await showPanel(page, 'Inputs');
      assert.equal(await page.getByLabel('Pumps side by side').inputValue(), '2');
      await showPanel(page, 'Answer');
      assert.match(await page.locator('.main-numbers').textContent(), /what the 2 pumps use together/);

      // The demo's meadow trough waters half of the herd; a quarter of 1292 L a day is 323 L.
      await courseItem(page, 'Meadow trough').click();
      await showPanel(page, 'Selected');
      const share = page.getByLabel('Share of the herd that drinks here');
      await share.fill('25 %');
      await share.press('Enter');
      await showPanel(page, 'Answer');
      await eventually(async () => {
        const need = await numberOf(page.locator('[data-trough="trough-meadow"]'), 'need');
        assert.ok(Math.abs(need * 1000 - 323) < 0.5, `found a need of ${need} m³, expected 0.323 m³`);
      });
    },
  },
  'a run that was measured stands in the place of the efficiency of the pump': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await showTable(page, 'Pump size');
      await page.locator('.jobs').getByRole('heading', { name: 'A test run of the pump' }).click();
      await typeInto(page, 'Drive flow', '10 L/min');
      await typeInto(page, 'Delivered', '1 L/min');
      await typeInto(page, 'Fall', '4 m');
      await typeInto(page, 'Lift', '20 m');
      await showPanel(page, 'Inputs');
      // D'Aubuisson's efficiency: 1 L/min × 20 m over 10 L/min × 4 m.
      const note = page.locator('[data-field="efficiency"]');
      await eventually(async () => assert.match(await note.textContent(), /50 %.* measured to take and deliver/));
    },
  },
  'axe finds nothing wrong with the tables on the wide page in dark colours': walk(
    { width: 1280, height: 800 },
    'dark',
  ),
  'axe finds nothing wrong with the tables on a telephone in light colours': walk(telephone, 'light'),
};
