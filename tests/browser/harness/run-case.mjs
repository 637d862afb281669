import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { withinLimit } from './case-time.mjs';
import { failuresFolder } from './failures-folder.mjs';

/** A picture of a failure is given up after this, ms; the failure is told without it. */
const picture_ms = 20_000;

/**
 * Runs one case in a context of its own. It fails on what it asserts, on an error of the page, on an error in the console
 * and on any request to another origin, but for those that the case allows (a test server of its own on this machine).
 */
export async function runCase({ browser, origin, limit_ms }, { name, run, options }) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB', ...options });
  const faults = [];
  const origins = new Set([origin]);
  // A dialog of the browser's own that nobody answers; cases that choose a place put their own in.
  await context.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  watch(context, origins, faults);
  const page = await context.newPage();
  page.setDefaultTimeout(0);
  let picture = null;
  const stop = async () => {
    picture = await takePicture(page, name);
    await context.close();
  };
  const given = { page, context, origin, browser, allowOrigin: (other) => origins.add(other) };
  try {
    await withinLimit(limit_ms, () => run(given), stop);
    faultless(faults);
  } catch (error) {
    picture ??= await takePicture(page, name);
    const others = faults.filter((fault) => !String(error.message).includes(fault));
    if (picture !== null) others.push(`picture: ${picture}`);
    if (others.length > 0) error.message = [error.message, ...others].join('\n');
    throw error;
  } finally {
    await context.close();
  }
}

function watch(context, origins, faults) {
  context.on('weberror', (webError) => faults.push(`page error: ${webError.error().stack ?? webError.error()}`));
  context.on('console', (message) => {
    if (message.type() === 'error') faults.push(`console error: ${message.text()} (${message.location().url})`);
  });
  context.on('request', (request) => {
    const url = request.url();
    if (/^(?:data|blob|about):/.test(url)) return;
    if (!origins.has(new URL(url).origin)) faults.push(`request to another origin: ${url}`);
  });
}

function faultless(faults) {
  if (faults.length > 0) throw new Error(faults.join('\n'));
}

async function takePicture(page, name) {
  const path = join(failuresFolder, `${name.replaceAll(/[^A-Za-z0-9]+/g, '-').slice(0, 80)}.png`);
  try {
    await mkdir(failuresFolder, { recursive: true });
    await page.screenshot({ path, timeout: picture_ms });
    return path;
  } catch {
    return null;
  }
}
