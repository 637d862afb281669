// Takes the pictures in the documents from the planner itself: node scripts/pictures.mjs
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { launchBrowser } from '../tests/browser/harness/launch-browser.mjs';
import { serveSite } from '../tests/browser/harness/serve-site.mjs';
import { openDemo, showPanel } from '../tests/browser/steps/planner.mjs';
import { liftToCandidates, pipeForTrough, planBeforeVisit } from '../tests/browser/steps/stories.mjs';
import { root } from './lib/run-program.mjs';

const folder = join(root, 'docs', 'pictures');
const SIZE = { width: 1440, height: 900 };

/** The page counts as drawn when it looks the same for as long as this, ms. */
const STILL = 1500;
const MOST_LOOKS = 40;

/** The page once it has come to rest. */
async function atRest(page) {
  let before = await page.screenshot();
  for (let look = 0; look < MOST_LOOKS; look++) {
    await pause(STILL);
    const now = await page.screenshot();
    if (now.equals(before)) return;
    before = now;
  }
  throw new Error(`the page kept changing for ${(STILL * MOST_LOOKS) / 1000} s`);
}

async function take(page, name, options) {
  await atRest(page);
  await writeFile(join(folder, name), await page.screenshot(options));
  console.log(`docs/pictures/${name}`);
}

const PHOTO = { type: 'jpeg', quality: 80 };

/** Walks a job and takes a picture of each moment that it is told to look at. */
async function story(page, origin, walk, { name, moments }) {
  const look = (moment) => (moments.includes(moment) ? take(page, `${name}-${moment}.jpg`, PHOTO) : undefined);
  await walk(page, origin, { look });
}

const stories = {
  planner: async (page, origin) => {
    await openDemo(page, origin);
    await take(page, 'planner.png');
  },
  visit: async (page, origin) => {
    const moments = ['empty', 'fall-at-pointer', 'proposed', 'sizes', 'answer'];
    await story(page, origin, planBeforeVisit, { name: 'visit', moments });
    await page.getByText('Import, export, print', { exact: true }).click();
    await page.getByRole('button', { name: 'Print the site visit sheet' }).click();
    await page.locator('.visit-sheet').waitFor();
    await take(page, 'visit-sheet.jpg', PHOTO);
  },
  trough: (page, origin) => story(page, origin, pipeForTrough, { name: 'trough', moments: ['proposed', 'bill'] }),
  place: async (page, origin) => {
    await openDemo(page, origin);
    await showPanel(page, 'Tables');
    await page.getByRole('button', { name: 'Find the place' }).click();
    await page.getByRole('button', { name: 'Wider' }).click();
    await page.getByRole('button', { name: 'Find places' }).click();
    await page.getByRole('button', { name: 'Show place 1 on the map' }).click();
    await page.getByRole('heading', { name: 'Where the fall is' }).scrollIntoViewIfNeeded();
    await take(page, 'place-places.jpg', PHOTO);
    await page.getByText('Three at most.').scrollIntoViewIfNeeded();
    await take(page, 'place-systems.jpg', PHOTO);
    await page.getByRole('button', { name: 'Discard' }).click();
    await page.getByRole('button', { name: 'Narrower' }).click();
    await page.getByRole('checkbox', { name: 'Show on the map what would arrive' }).check();
    await page.getByText('Point at the map to read it.').waitFor();
    await take(page, 'place-reach.jpg', PHOTO);
  },
  tanks: (page, origin) => story(page, origin, liftToCandidates, { name: 'tanks', moments: ['candidates'] }),
};

await mkdir(folder, { recursive: true });
const site = await serveSite();
const { browser } = await launchBrowser();
try {
  const wanted = process.argv.slice(2);
  for (const [name, take] of Object.entries(stories)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    const context = await browser.newContext({ viewport: SIZE, reducedMotion: 'reduce', locale: 'en-GB' });
    await take(await context.newPage(), site.origin);
    await context.close();
  }
} finally {
  await browser.close();
  await site.close();
}
