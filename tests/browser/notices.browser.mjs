import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { assertAccessible } from './steps/accessibility.mjs';
import { demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { dropHandle, putFile } from './steps/handles.mjs';
import { keptAs, kill, notice } from './steps/keeping.mjs';
import { openEmpty } from './steps/planner.mjs';

const planName = (page) => page.getByLabel('Name of the plan');

async function rename(page, name) {
  await planName(page).fill(name);
  await planName(page).press('Enter');
}

/** The notice is there, is seen, lies within the page, and axe finds nothing wrong. */
async function looksRight(page, kind) {
  await notice(page, kind).waitFor();
  const { x, width } = await notice(page, kind).boundingBox();
  assert.ok(x >= 0 && x + width <= page.viewportSize().width, `${kind} reaches from ${x} over ${width}`);
  await assertAccessible(page, kind);
}

const answer = (page, kind, words) => notice(page, kind).getByRole('button', { name: words }).click();

async function left(context, origin, name) {
  const page = await context.newPage();
  await openEmpty(page, origin);
  await rename(page, name);
  await keptAs(page, name);
  return page;
}

async function ofOtherTabs(context, origin) {
  await kill(await left(context, origin, 'Left behind'));
  const other = await left(context, origin, 'In another tab');
  const page = await context.newPage();
  await openEmpty(page, origin);
  await looksRight(page, 'elsewhere');
  await looksRight(page, 'found');
  await answer(page, 'elsewhere', 'Take it over');
  await looksRight(other, 'taken-over');
  await other.close();
  await answer(page, 'found', 'Open it');
  await looksRight(page, 'put-aside');
  await answer(page, 'put-aside', 'OK');
  return page;
}

async function ofTheFile(page) {
  const plan = await readFile(demoPlan, 'utf8');
  await putFile(page, 'farm.geojson', plan);
  await dropHandle(page, 'farm.geojson');
  await eventually(async () => assert.match(await planName(page).inputValue(), /^Demo valley/));
  await rename(page, 'Changed here');
  await putFile(page, 'farm.geojson', `${plan}\n`);
  await page.keyboard.press('Control+s');
  await looksRight(page, 'changed-on-disk');
  await answer(page, 'changed-on-disk', 'Not now');
  await page.evaluate(async () => (await navigator.storage.getDirectory()).removeEntry('farm.geojson'));
  await page.keyboard.press('Control+s');
  await looksRight(page, 'not-written');
}

async function ofSameFile(page, context, origin) {
  await putFile(page, 'shared.geojson', await readFile(demoPlan));
  const pages = [page, await context.newPage()];
  await openEmpty(pages[1], origin);
  for (const each of pages) {
    await dropHandle(each, 'shared.geojson');
    await eventually(async () => assert.match(await planName(each).inputValue(), /^Demo valley/));
  }
  await looksRight(pages[1], 'same-file');
}

async function notKept(page, origin) {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('storage is switched off', 'SecurityError');
    };
  });
  await openEmpty(page, origin);
  await rename(page, 'Kept nowhere');
  await looksRight(page, 'failed');
}

function walk(viewport, colorScheme) {
  return {
    options: { reducedMotion: 'reduce', viewport, colorScheme },
    run: async ({ page, context, origin }) => {
      const other = await ofOtherTabs(context, origin);
      await ofTheFile(other);
      await ofSameFile(other, context, origin);
      await notKept(page, origin);
    },
  };
}

const wide = { width: 1280, height: 800 };
const telephone = { width: 390, height: 844 };

export const cases = {
  'every notice about kept work and files is seen and passes axe on a wide page in light colours': walk(wide, 'light'),
  'every notice about kept work and files is seen and passes axe on a wide page in dark colours': walk(wide, 'dark'),
  'every notice about kept work and files is seen and passes axe on a telephone in light colours': walk(
    telephone,
    'light',
  ),
  'every notice about kept work and files is seen and passes axe on a telephone in dark colours': walk(
    telephone,
    'dark',
  ),
};
