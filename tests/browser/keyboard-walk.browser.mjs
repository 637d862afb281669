import assert from 'node:assert/strict';
import { demoDem } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { fileOf } from './steps/files.mjs';
import { mapAtRest } from './steps/map.mjs';
import { calm, openEmpty } from './steps/planner.mjs';
import { places } from './steps/stories.mjs';

/** Presses of Tab after which what is sought is not to be reached from the keyboard. */
const FARTHEST = 160;

/** What has the focus: its role or tag, its name as a screen reader says it, and whether its outline is to be seen. */
function focused(page) {
  return page.evaluate(() => {
    const element = document.activeElement;
    if (element === null || element === document.body) return null;
    const label = element.labels?.[0]?.textContent ?? element.getAttribute('aria-label') ?? element.textContent;
    const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
    const seen = (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2) || boxShadow !== 'none';
    return { tag: element.tagName, name: (label ?? '').replace(/\s+/g, ' ').trim(), seen };
  });
}

/** Goes on by Tab, and by Tab alone, until the focus is on what has this name; the focus must be seen all the way. */
async function tabTo(page, name) {
  const passed = [];
  for (let press = 0; press < FARTHEST; press += 1) {
    await page.keyboard.press('Tab');
    const now = await focused(page);
    if (now === null) continue;
    passed.push(now.name.slice(0, 30));
    if (name.test(now.name)) {
      assert.ok(now.seen, `the focus on “${now.name}” is not to be seen`);
      return;
    }
  }
  assert.fail(`found ${passed.join(' | ')}, expected ${name} on the way`);
}

async function press(page, name) {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

/** Types over what stands in a field. */
async function fill(page, name, text) {
  await tabTo(page, name);
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

async function place(page, button, [lon, lat]) {
  await press(page, button);
  await fill(page, /^or longitude, latitude/, `${lon} ${lat}`);
  await page.locator('.map-view[data-tool="select"]').waitFor();
}

/** From tab to tab of the panel by arrow keys. */
async function openTab(page, name) {
  await tabTo(page, /^(Parts|Answer|Selected|Inputs|Tables)$/);
  for (let at = 0; at < 6; at += 1) {
    if ((await focused(page)).name === name) return;
    await page.keyboard.press('ArrowRight');
  }
  assert.fail(`found no tab ${name}`);
}

export const cases = {
  'a system is planned, its pipe priced and its sheet opened with the keyboard alone': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await mapAtRest(page);
      const { name, bytes } = await fileOf(demoDem);
      const choosing = page.waitForEvent('filechooser');
      await press(page, /^Open elevation…/);
      await (await choosing).setFiles({ name, buffer: Buffer.from(bytes), mimeType: '' });
      await page.getByRole('button', { name: 'Other elevation…' }).waitFor();

      await place(page, /^Place the source/, places.spring);
      await place(page, /^Place the standpipe/, places.standpipe);
      await place(page, /^Place the pump/, places.pump);
      await place(page, /^Place the tank/, places.shoulder);
      for (const line of ['supply line', 'drive pipe', 'delivery line']) {
        await press(page, new RegExp(`^Draw the ${line} straight`));
      }
      await openTab(page, 'Inputs');
      await press(page, /^Add a known flow/);
      await fill(page, /^Flow$/, '16 L/min');
      await openTab(page, 'Answer');
      const fall = page.locator('.answer [data-field="fall"]');
      await eventually(async () => assert.ok(Number(await fall.getAttribute('data-value')) > 2));

      await openTab(page, 'Tables');
      await press(page, /^Pipe$/);
      await fill(page, /^Currency$/, 'crowns');
      await fill(page, /^Price of a metre/, '2');
      await eventually(async () => assert.match(await page.locator('[data-field="total"]').textContent(), /crowns/));

      await tabTo(page, /^Import, export, print/);
      await page.keyboard.press('Enter');
      await press(page, /^Print the site visit sheet/);
      await page.locator('.visit-sheet').waitFor();
      await page.keyboard.press('Escape');
      await page.locator('.visit-sheet').waitFor({ state: 'detached' });

      assert.notEqual(await focused(page), null, 'the focus is back on the page');
    },
  },
};
