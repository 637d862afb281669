import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';

/** A case that takes longer than this is stuck. */
const longestCase_ms = 180_000;

/**
 * Runs one case in a context of its own. It fails on what it asserts, on an error of the page, on an error in the console
 * and on any request to another origin, but for those that the case allows (a test server of its own on this machine).
 */
export async function runCase({ browser, origin, failuresFolder }, { name, run, options }) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  const faults = [];
  const origins = new Set([origin]);
  watch(context, origins, faults);
  const page = await context.newPage();
  page.setDefaultTimeout(40_000);
  try {
    await inTime(run({ page, context, origin, browser, allowOrigin: (other) => origins.add(other) }));
    faultless(faults);
    return { name, passed: true };
  } catch (error) {
    const picture = await takePicture(page, failuresFolder, name);
    const others = faults.filter((fault) => !String(error.message).includes(fault));
    return { name, passed: false, reason: [error.stack ?? String(error), ...others].join('\n'), picture };
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

async function inTime(promise) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(`still running after ${longestCase_ms / 1000} s`)), longestCase_ms);
  });
  try {
    await Promise.race([promise, late]);
  } finally {
    clearTimeout(timer);
  }
}

async function takePicture(page, folder, name) {
  const path = join(folder, `${name.replaceAll(/[^A-Za-z0-9]+/g, '-').slice(0, 80)}.png`);
  try {
    await mkdir(folder, { recursive: true });
    await page.screenshot({ path, timeout: 5000 });
    return path;
  } catch {
    return null;
  }
}
