import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { demoDem, demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { chooseFiles, fileOf } from './steps/files.mjs';
import { mapAtRest } from './steps/map.mjs';
import { colourShare } from './steps/map-colour.mjs';
import { calm, openEmpty, reckoned, savedPlan, showPanel } from './steps/planner.mjs';
import { serveTiles } from './steps/tile-server.mjs';

const plan = await fileOf(demoPlan);
const dem = await fileOf(demoDem);
const MAGENTA = [255, 0, 255];
const WHOSE = '© Invented survey <b>2026</b>';

const tilesSwitch = (page) => page.getByRole('toolbar', { name: 'Map' }).getByRole('checkbox', { name: 'Map tiles' });
const addressField = (page) => page.getByRole('textbox', { name: /^Address of the tiles/ });
const failure = (page) => page.locator('[data-state="tiles-failure"]');

async function typeAddress(page, address) {
  await addressField(page).fill(address);
  await addressField(page).press('Enter');
}

/** The demo's plan on its ground; its picture would lie over the tiles. */
async function openWithoutPicture(page, origin) {
  await openEmpty(page, origin);
  await chooseFiles(page, 'Open plan…', [plan]);
  await chooseFiles(page, 'Choose an elevation file…', [dem]);
  await reckoned(page);
}

async function withServer(run) {
  const server = await serveTiles();
  try {
    await run(server);
  } finally {
    await server.close();
  }
}

export const cases = {
  'map tiles are off until they are switched on, lie under the hillshade with their attribution, and are off when the plan is opened again':
    {
      options: calm,
      run: ({ page, origin, allowOrigin }) =>
        withServer(async (server) => {
          await openWithoutPicture(page, origin);
          await showPanel(page, 'Inputs');
          assert.equal(await tilesSwitch(page).count(), 0);
          await typeAddress(page, `${server.origin}/good/{z}/{x}/{y}.png`);
          await page.getByRole('textbox', { name: 'Attribution that is shown with them' }).fill(WHOSE);
          await page.keyboard.press('Enter');
          await mapAtRest(page);
          assert.equal(await tilesSwitch(page).isChecked(), false);
          assert.deepEqual(server.asked, []);
          assert.ok((await colourShare(page, MAGENTA)) < 0.01);
          allowOrigin(server.origin);
          await tilesSwitch(page).check();
          await eventually(async () => assert.ok((await colourShare(page, MAGENTA)) > 0.5));
          await page.locator('.map-attribution').getByText(WHOSE, { exact: true }).waitFor();
          await assertAccessible(page, 'map tiles');
          const text = await savedPlan(page);
          assert.deepEqual(JSON.parse(text).rillwright.map_tiles, {
            address: `${server.origin}/good/{z}/{x}/{y}.png`,
            attribution: WHOSE,
          });
          await chooseFiles(page, 'Open plan…', [{ name: 'again.geojson', bytes: Buffer.from(text) }]);
          await eventually(async () => assert.equal(await tilesSwitch(page).isChecked(), false));
          await mapAtRest(page);
          const asked = server.asked.length;
          assert.equal(await page.locator('.map-attribution').count(), 0);
          await eventually(async () => assert.ok((await colourShare(page, MAGENTA)) < 0.01));
          assert.equal(server.asked.length, asked);
          await tilesSwitch(page).check();
          await page.locator('.map-attribution').waitFor();
        }),
    },

  'a plan from elsewhere with map tiles asks nothing, and another address is off again': {
    options: calm,
    run: ({ page, origin, allowOrigin }) =>
      withServer(async (server) => {
        await openEmpty(page, origin);
        const copy = JSON.parse(plan.bytes.toString('utf8'));
        copy.rillwright.map_tiles = {
          address: `${server.origin}/good/{z}/{x}/{-y}.png`,
          attribution: 'Invented survey',
        };
        await chooseFiles(page, 'Open plan…', [{ name: 'theirs.geojson', bytes: Buffer.from(JSON.stringify(copy)) }]);
        await tilesSwitch(page).waitFor();
        await mapAtRest(page);
        assert.deepEqual(server.asked, []);
        allowOrigin(server.origin);
        await tilesSwitch(page).check();
        await eventually(() => assert.ok(server.asked.length > 0));
        await showPanel(page, 'Inputs');
        await typeAddress(page, `${server.origin}/other/{z}/{x}/{y}.png`);
        await eventually(async () => assert.equal(await tilesSwitch(page).isChecked(), false));
        await mapAtRest(page);
        assert.deepEqual(
          server.asked.filter((url) => url.startsWith('/other/')),
          [],
        );
      }),
  },

  'beyond the last zoom that a server has, its coarser tiles are enlarged and nothing is complained of': async ({
    browser,
    origin,
  }) =>
    withServer(async (server) => {
      // A context of its own: the browser writes answers 404 into its console as errors.
      const context = await browser.newContext(calm);
      try {
        const page = await context.newPage();
        await openWithoutPicture(page, origin);
        await showPanel(page, 'Inputs');
        await typeAddress(page, `${server.origin}/shallow/{z}/{x}/{y}.png`);
        await tilesSwitch(page).check();
        await eventually(async () => assert.ok((await colourShare(page, MAGENTA)) > 0.5));
        assert.equal(await failure(page).textContent(), '');
      } finally {
        await context.close();
      }
    }),

  'what cannot be an address of tiles is said beside the field, and what a server refuses in one sentence': async ({
    browser,
    origin,
  }) =>
    withServer(async (server) => {
      const context = await browser.newContext(calm);
      try {
        const page = await context.newPage();
        await openWithoutPicture(page, origin);
        await showPanel(page, 'Inputs');
        for (const wrong of ['javascript:alert(1)/{z}/{x}/{y}', `${server.origin}/good/{z}/{x}.png`]) {
          await typeAddress(page, wrong);
          await page.getByText(`Found ${wrong}; expected https://`).waitFor();
        }
        await typeAddress(page, 'http://tiles.invalid/{z}/{x}/{y}.png');
        await page.locator('.tiles-inputs [data-code="address-in-the-clear"]').waitFor();
        assert.equal(await tilesSwitch(page).isDisabled(), true);
        for (const [way, says] of [
          ['missing', /has none at this address for this place \(status 404\)/],
          ['locked', /does not give them out \(status 403\)/],
          ['private', /does not let other pages read its tiles/],
          ['page', /is no picture/],
          ['wide', /sends more than a tile can hold/],
        ]) {
          await typeAddress(page, `${server.origin}/${way}/{z}/{x}/{y}.png`);
          await tilesSwitch(page).check();
          await eventually(async () => assert.match((await failure(page).textContent()) ?? '', says));
        }
        await server.close();
        await typeAddress(page, `${server.origin}/good/{z}/{x}/{y}.png`);
        await tilesSwitch(page).check();
        await eventually(async () => assert.match((await failure(page).textContent()) ?? '', /nobody answers/));
      } finally {
        await context.close();
      }
    }),
};
