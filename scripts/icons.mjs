// Draws the icons of the installed page from the mark: node scripts/icons.mjs
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { launchBrowser } from '../tests/browser/harness/launch-browser.mjs';
import { root } from './lib/run-program.mjs';

const mark = await readFile(join(root, 'public', 'mark.svg'), 'utf8');
const { browser } = await launchBrowser();
try {
  for (const side of [192, 512]) {
    const page = await browser.newPage({ viewport: { width: side, height: side } });
    await page.setContent(`<style>body { margin: 0 } svg { display: block; width: ${side}px }</style>${mark}`);
    await writeFile(join(root, 'public', `mark-${side}.png`), await page.screenshot({ omitBackground: true }));
    await page.close();
    console.log(`public/mark-${side}.png`);
  }
} finally {
  await browser.close();
}
