import { rm } from 'node:fs/promises';
import { failuresFolder } from './failures-folder.mjs';
import { serveBrowser } from './launch-browser.mjs';
import { serveSite } from './serve-site.mjs';

/** Once for all cases: builds and serves the site, and starts the browser that every worker connects to. */
export async function setup(project) {
  await rm(failuresFolder, { recursive: true, force: true });
  const site = await serveSite();
  try {
    const browser = await serveBrowser();
    console.log(`browser: ${browser.from}`);
    project.provide('browserCases', { origin: site.origin, address: browser.address });
    return async () => {
      await browser.close();
      await site.close();
    };
  } catch (error) {
    await site.close();
    throw error;
  }
}
