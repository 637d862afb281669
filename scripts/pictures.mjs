// Takes the pictures in the documents from the planner itself: node scripts/pictures.mjs
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { launchBrowser } from '../tests/browser/harness/launch-browser.mjs';
import { serveSite } from '../tests/browser/harness/serve-site.mjs';
import { openDemo } from '../tests/browser/steps/planner.mjs';
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
    await page.getByText('Bring and take', { exact: true }).click();
    await page.getByRole('button', { name: 'Print the site visit sheet' }).click();
    await page.locator('.visit-sheet').waitFor();
    await take(page, 'visit-sheet.jpg', PHOTO);
  },
  trough: (page, origin) => story(page, origin, pipeForTrough, { name: 'trough', moments: ['proposed', 'bill'] }),
  tanks: (page, origin) => story(page, origin, liftToCandidates, { name: 'tanks', moments: ['candidates'] }),
};

await mkdir(folder, { recursive: true });
const site = await serveSite();
const { browser } = await launchBrowser();
try {
  for (const take of Object.values(stories)) {
    const context = await browser.newContext({ viewport: SIZE, reducedMotion: 'reduce' });
    await take(await context.newPage(), site.origin);
    await context.close();
  }
} finally {
  await browser.close();
  await site.close();
}
