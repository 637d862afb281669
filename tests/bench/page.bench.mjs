// The page itself in a headless browser with software drawing: the first useful picture of the demo, the script it takes, the
// wait for new numbers while a point moves, a large plan, and what 1 000 edits leave behind.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { root } from '../../scripts/lib/run-program.mjs';
import { launchBrowser } from '../browser/harness/launch-browser.mjs';
import { serveSite } from '../browser/harness/serve-site.mjs';
import { chooseFiles } from '../browser/steps/files.mjs';
import { focusMap, mapAtRest, pixelOf, viewOf } from '../browser/steps/map.mjs';
import { openDemo, reckoned } from '../browser/steps/planner.mjs';
import { largePlan } from './page/large-plan.mjs';
import { watchPage } from './page/watch-page.mjs';

const WINDOW = { width: 1280, height: 800 };
const OPENINGS = 5;
const MOVES = 200;
/** Moves before the first that counts: the browser compiles what is used often. */
const WARM = 40;
const EDITS = 1000;
const LARGE = { points: 500, routes: 50 };
/** Between two moves of a hand, ms. */
const REST = 30;

export async function bench(report) {
  const demo = JSON.parse(await readFile(join(root, 'data', 'demo', 'plan.geojson'), 'utf8'));
  const site = await serveSite();
  const { browser } = await launchBrowser();
  const open = (run) => inPage(browser, site.origin, run);
  try {
    await open(async (page) => opened(page));
    await firstPicture(report, open);
    const five = demo.features.length + 4;
    const fivePoints = demo.features.filter(({ geometry }) => geometry.type === 'Point').length + 2;
    await open((page) => moving(report, page, largePlan(demo, { points: fivePoints, routes: five }), 'five tanks'));
    await open((page) =>
      moving(report, page, largePlan(demo, LARGE), `${LARGE.points} points, ${LARGE.routes} routes`),
    );
    await open((page) => leaving(report, page));
  } finally {
    await browser.close();
    await site.close();
  }
}

async function inPage(browser, origin, run) {
  const context = await browser.newContext({
    viewport: WINDOW,
    reducedMotion: 'reduce',
    locale: 'en-GB',
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  await page.addInitScript(watchPage);
  try {
    page.origin = origin;
    return await run(page);
  } finally {
    await context.close();
  }
}

async function opened(page) {
  await openDemo(page, page.origin);
  await mapAtRest(page);
}

async function firstPicture(report, open) {
  const openings = [];
  for (let at = 0; at < OPENINGS; at += 1) openings.push(await open(opening));
  const last = openings.at(-1);
  const of = (part) => median(openings.map((one) => one[part]));
  report('demo: first paint', of('paint'), 'ms', `median of ${OPENINGS} cold openings`);
  report('demo: numbers on the page', of('numbers'), 'ms');
  report('demo: map drawn as well', of('picture'), 'ms', 'aim 2500 or less');
  report('script until first paint', last.early / 1000, 'kB gzip', 'aim 650 or less');
  report('script until the map is drawn, workers’ too', last.all / 1000, 'kB gzip');
}

/** Opens the demo once: when what is there, ms, and the script it took, bytes as gzip packs them. */
async function opening(page) {
  const bodies = new Map();
  page.on('response', (answer) => {
    if (/\.m?js$/.test(new URL(answer.url()).pathname)) bodies.set(answer.url(), answer.body());
  });
  await opened(page);
  const { marks, paint, before } = await page.evaluate(() => {
    const [{ startTime }] = performance.getEntriesByName('first-contentful-paint');
    const loaded = performance.getEntriesByType('resource').filter(({ responseEnd }) => responseEnd <= startTime);
    return { marks: globalThis.watched.marks, paint: startTime, before: loaded.map(({ name }) => name) };
  });
  const packed = async (body) => gzipSync(await body).length;
  const sum = async (which) => (await Promise.all(which.map(packed))).reduce((all, one) => all + one, 0);
  const early = await sum(before.flatMap((address) => bodies.get(address) ?? []));
  return { ...marks, paint, early, all: await sum([...bodies.values()]) };
}

async function moving(report, page, plan, about) {
  await opened(page);
  await chooseFiles(page, 'Open plan…', [{ name: 'plan.geojson', bytes: Buffer.from(JSON.stringify(plan)) }]);
  await page.waitForFunction((name) => document.title.startsWith(name), plan.rillwright.name);
  await reckoned(page);
  await mapAtRest(page);
  for (const [how, move] of Object.entries({ drag: dragTank, 'arrow key': nudgeTank })) {
    const waits = await waitsOf(page, move);
    report(`${about}, ${how}: hand to new number`, p95(waits, 'hand'), 'ms, p95', 'aim 50 or less');
    report(`${about}, ${how}: the page’s part of it`, p95(waits, 'page'), 'ms, p95', 'the rest is the browser’s frame');
  }
}

/** Waits while a tank is moved, ms. */
async function waitsOf(page, move) {
  await move(page, WARM);
  await page.evaluate(() => globalThis.watched.takeWaits());
  await move(page, MOVES);
  const waits = await page.evaluate(() => globalThis.watched.takeWaits());
  if (waits.length < MOVES / 4) throw new Error(`found ${waits.length} new numbers in ${MOVES} moves, expected more`);
  return waits;
}

function p95(waits, part) {
  const sorted = waits.map((wait) => wait[part]).sort((one, other) => one - other);
  return sorted[Math.ceil(0.95 * sorted.length) - 1];
}

const tank = [-39.99605816, 38.00195531];

async function dragTank(page, moves) {
  const { x, y } = pixelOf(await viewOf(page), tank);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let at = 0; at < moves; at += 1) {
    const turn = (2 * Math.PI * at) / 25;
    await page.mouse.move(x + 20 * Math.sin(turn), y + 20 * (1 - Math.cos(turn)));
    await page.waitForTimeout(REST);
  }
  await page.mouse.move(x, y);
  await page.mouse.up();
  await mapAtRest(page);
}

async function nudgeTank(page, moves) {
  const { x, y } = pixelOf(await viewOf(page), tank);
  await page.mouse.click(x, y);
  await focusMap(page);
  for (let at = 0; at < moves; at += 1) {
    await page.keyboard.press(at % 2 === 0 ? 'Alt+ArrowRight' : 'Alt+ArrowLeft');
    await page.waitForTimeout(REST);
  }
}

/** Memory of the page after so many edits and after as many again; the steps to undo are kept on purpose. */
async function leaving(report, page) {
  await opened(page);
  const devtools = await page.context().newCDPSession(page);
  const used = async () => {
    await devtools.send('HeapProfiler.collectGarbage');
    const { usedSize } = await devtools.send('Runtime.getHeapUsage');
    const { nodes, jsEventListeners } = await devtools.send('Memory.getDOMCounters');
    return { bytes: usedSize, nodes, listeners: jsEventListeners };
  };
  await nudgeTank(page, EDITS / 2);
  const before = await used();
  await nudgeTank(page, EDITS);
  const after = await used();
  report(`${EDITS} edits: memory grows`, (after.bytes - before.bytes) / EDITS, 'bytes an edit', 'the steps to undo');
  report(`${EDITS} edits: elements grow`, after.nodes - before.nodes, 'elements', `of ${before.nodes}`);
  report(`${EDITS} edits: listeners grow`, after.listeners - before.listeners, 'listeners', `of ${before.listeners}`);
}

function median(values) {
  return [...values].sort((one, other) => one - other)[Math.floor(values.length / 2)];
}
