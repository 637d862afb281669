// Takes the pictures in the documents from the planner itself: node scripts/pictures.mjs
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { launchBrowser } from '../tests/browser/harness/launch-browser.mjs';
import { serveSite } from '../tests/browser/harness/serve-site.mjs';
import { root } from './lib/run-program.mjs';

const folder = join(root, 'docs', 'pictures');
const SIZE = { width: 1440, height: 900 };

/** The page counts as drawn when it looks the same for as long as this, ms. */
const STILL = 1500;
const MOST_LOOKS = 40;

/** A picture of a page that has come to rest. */
async function pictureAtRest(page) {
  let before = await page.screenshot();
  for (let look = 0; look < MOST_LOOKS; look++) {
    await pause(STILL);
    const now = await page.screenshot();
    if (now.equals(before)) return now;
    before = now;
  }
  throw new Error(`the page kept changing for ${(STILL * MOST_LOOKS) / 1000} s`);
}

await mkdir(folder, { recursive: true });
const site = await serveSite();
const { browser } = await launchBrowser();
try {
  const page = await browser.newPage({ viewport: SIZE, reducedMotion: 'reduce' });
  await page.goto(site.origin);
  await page.getByText('Shoulder tank').first().waitFor({ timeout: 60_000 });
  await writeFile(join(folder, 'planner.png'), await pictureAtRest(page));
  console.log('docs/pictures/planner.png');
} finally {
  await browser.close();
  await site.close();
}
