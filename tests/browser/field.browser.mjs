import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { root, runNode } from '../../scripts/lib/run-program.mjs';
import { assertAccessible } from './steps/accessibility.mjs';
import { demoDem } from './steps/command-line.mjs';
import { dropFiles, fileOf } from './steps/files.mjs';
import { keptAs, notice } from './steps/keeping.mjs';
import { answerNumbers } from './steps/numbers.mjs';
import { calm, openDemo, openEmpty, reckoned } from './steps/planner.mjs';

const telephone = { ...calm, viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** What the browser is handed when a button is pressed. */
async function handed(page, press) {
  const waiting = page.waitForEvent('download');
  await press();
  const download = await waiting;
  const pieces = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece);
  return { name: download.suggestedFilename(), mimeType: 'application/zip', buffer: Buffer.concat(pieces) };
}

/** Opens the menu of files, which on a narrow page lies inside another. */
async function filesMenu(page) {
  const outer = page.locator('details.more:not(.files) > summary', { hasText: 'Menu' });
  if ((await outer.count()) > 0 && !(await page.locator('details.files').isVisible())) await outer.click();
  await page.locator('details.files > summary').click();
  return page.locator('details.files');
}

async function takeToField(page) {
  const menu = await filesMenu(page);
  const file = await handed(page, () => menu.getByRole('button', { name: /One file for the phone/ }).click());
  await notice(page, 'bundle-made').waitFor();
  return file;
}

async function openOnPage(page, file) {
  const choosing = page.waitForEvent('filechooser');
  if (!(await page.getByRole('button', { name: 'Open plan…' }).isVisible())) {
    await page.locator('details.more > summary', { hasText: 'Menu' }).click();
  }
  await page.getByRole('button', { name: 'Open plan…' }).click();
  await (await choosing).setFiles(file);
  await notice(page, 'bundle-opened').waitFor();
  await reckoned(page);
}

async function merge(page, file) {
  const menu = await filesMenu(page);
  const choosing = page.waitForEvent('filechooser');
  await menu.getByRole('button', { name: 'Merge what came back…' }).click();
  await (await choosing).setFiles(file);
  return page.getByRole('dialog', { name: `What ${file.name} changes` });
}

export const cases = {
  'one file carries plan, ground and picture to a telephone, which answers without a network as the page at home does':
    {
      options: calm,
      run: async ({ page, origin, browser }) => {
        await openDemo(page, origin);
        await page.locator('.map-pane canvas').first().waitFor();
        const home = await answerNumbers(page);
        const file = await takeToField(page);
        assert.match(file.name, /-field\.zip$/);
        assert.ok(file.buffer.length < 14e6, `found ${file.buffer.length} bytes, expected 14 MB at most`);
        assert.match(await notice(page, 'bundle-made').textContent(), /Nothing is missing in it/);
        await assertAccessible(page, 'a file for out of doors was made');
        const context = await browser.newContext(telephone);
        try {
          const pocket = await context.newPage();
          await openEmpty(pocket, origin);
          await pocket.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
          await context.setOffline(true);
          await openOnPage(pocket, file);
          assert.deepEqual(await answerNumbers(pocket), home);
        } finally {
          await context.close();
        }
        const folder = await mkdtemp(join(tmpdir(), 'rillwright-field-'));
        try {
          const path = join(folder, file.name);
          await writeFile(path, file.buffer);
          const small = await runNode(['bin/rillwright.mjs', 'assess', path, '--json']);
          const demo = [join(root, 'data/demo/plan.geojson'), '--dem', join(root, 'data/demo/dem.tif')];
          const whole = await runNode(['bin/rillwright.mjs', 'assess', ...demo, '--json']);
          assert.equal(small.code, 0, small.output);
          assert.equal(small.output, whole.output);
        } finally {
          await rm(folder, { recursive: true, force: true });
        }
      },
    },

  'what was changed on the phone is listed at home, and each change is taken or left': {
    options: calm,
    run: async ({ page, origin, browser }) => {
      await openDemo(page, origin);
      const file = await takeToField(page);
      const context = await browser.newContext(calm);
      let back;
      try {
        const pocket = await context.newPage();
        await openEmpty(pocket, origin);
        await openOnPage(pocket, file);
        await pocket.getByLabel('Name of the plan').fill('Seen on site');
        await pocket.getByLabel('Name of the plan').press('Enter');
        await notice(pocket, 'bundle-opened').getByRole('button', { name: 'All right' }).click();
        back = { ...(await takeToField(pocket)), name: 'back.zip' };
      } finally {
        await context.close();
      }
      const dialog = await merge(page, back);
      assert.match(await dialog.textContent(), /Changed: name of the plan/);
      await assertAccessible(page, 'what came back');
      const box = await dialog.locator('label').first().boundingBox();
      assert.ok(box.height >= 44, `found a line of ${box.height} px, expected 44 for a thumb`);
      await dialog.getByRole('button', { name: 'Take the 1 chosen' }).click();
      await page.getByRole('button', { name: 'Undo', exact: true }).waitFor();
      assert.equal(await page.getByLabel('Name of the plan').inputValue(), 'Seen on site');
      const again = await merge(page, back);
      assert.match(await again.textContent(), /Nothing in it differs from the plan on the page/);
    },
  },

  'a link carries the plan without ground, is told so where it is opened, and gives the same answer on the same elevation':
    {
      options: { ...calm, permissions: ['clipboard-read', 'clipboard-write'] },
      run: async ({ page, origin, browser }) => {
        await openDemo(page, origin);
        const home = await answerNumbers(page);
        const menu = await filesMenu(page);
        await menu.getByRole('button', { name: 'Copy a link with the plan (no ground)' }).click();
        await notice(page, 'link-copied').waitFor();
        const link = await page.evaluate(() => navigator.clipboard.readText());
        assert.ok(link.startsWith(`${origin}/#plan=`) && link.length <= 8000, `found ${link.length} letters`);
        const context = await browser.newContext(calm);
        try {
          const pocket = await context.newPage();
          const asked = [];
          pocket.on('request', (request) => asked.push(request.url()));
          await pocket.goto(link);
          await notice(pocket, 'link-opened').waitFor();
          assert.match(
            await notice(pocket, 'link-opened').textContent(),
            /without ground. Open the elevation file dem\.tif/,
          );
          await assertAccessible(pocket, 'a plan from a link');
          assert.equal(await pocket.evaluate(() => location.hash), '');
          assert.ok(!asked.some((url) => url.includes('plan=')));
          await dropFiles(pocket, [await fileOf(demoDem)]);
          await reckoned(pocket);
          assert.deepEqual(await answerNumbers(pocket), home);
          const cut = await context.newPage();
          await cut.goto(link.slice(0, -40));
          await cut.getByText(/a link that was cut off or changed on its way/).waitFor();
        } finally {
          await context.close();
        }
      },
    },

  'a phone that drops the page gives plan and ground again without a network, with the same answer': {
    options: calm,
    run: async ({ page, origin, browser }) => {
      await openDemo(page, origin);
      const file = await takeToField(page);
      const context = await browser.newContext(telephone);
      try {
        const pocket = await context.newPage();
        await openEmpty(pocket, origin);
        await pocket.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
        await context.setOffline(true);
        await openOnPage(pocket, file);
        const before = await answerNumbers(pocket);
        await pocket.getByLabel('Name of the plan').fill('On site');
        await pocket.getByLabel('Name of the plan').press('Enter');
        await keptAs(pocket, 'On site');
        await pocket.reload();
        await notice(pocket, 'found').getByRole('button', { name: 'Open it' }).click();
        await reckoned(pocket);
        assert.deepEqual(await answerNumbers(pocket), before);
        const menu = await filesMenu(pocket);
        // The plan is still of the files that it was made on.
        const again = await handed(pocket, () => menu.getByRole('button', { name: /One file for the phone/ }).click());
        const { 'plan.geojson': plan } = unzipSync(again.buffer);
        assert.deepEqual(JSON.parse(Buffer.from(plan).toString()).rillwright.terrain.files, ['dem.tif']);
      } finally {
        await context.close();
      }
    },
  },
};
