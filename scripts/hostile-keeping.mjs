// Kills a real browser while a plan is edited, now and then tears the log of its database, starts it again on the same folder and
// looks what is left: `npm run hostile-keeping -- --kills 100`. Prints what was lost, what was late, and whether it was told.
import { execFileSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { launchKept } from '../tests/browser/harness/launch-browser.mjs';
import { serveSite } from '../tests/browser/harness/serve-site.mjs';

const { values } = parseArgs({
  options: { kills: { type: 'string', default: '100' }, seed: { type: 'string', default: '1' } },
});
const kills = Number(values.kills);
let state = Number(values.seed);
/** Numbers from 0 to below 1, the same for a seed: Park and Miller, CACM 31, 1988. */
const chance = () => {
  state = (state * 48_271) % 2_147_483_647;
  return state / 2_147_483_647;
};

/** What accidents leave of the end of a file. */
const ACCIDENTS = {
  nothing: null,
  cut: (bytes, at) => bytes.subarray(0, at),
  lengthened: (bytes) => Buffer.concat([bytes, Buffer.alloc(4096, 7)]),
  'zero-filled': (bytes, at) => Buffer.concat([bytes.subarray(0, at), Buffer.alloc(bytes.length - at)]),
};

const site = await serveSite();
const folder = await mkdtemp(join(tmpdir(), 'rillwright-kept-'));
const count = { killed: 0, lost: 0, late: 0, told: 0, torn: 0 };
let expected = null;
try {
  for (let kill = 1; kill <= kills; kill += 1) {
    const context = await launchKept(folder, { viewport: { width: 1280, height: 800 } });
    const page = context.pages()[0] ?? (await context.newPage());
    page.setDefaultTimeout(120_000);
    await page.goto(`${site.origin}/?empty`);
    await page.getByLabel('Name of the plan').waitFor();
    if (expected !== null) await look(page);
    expected = await edit(page, kill);
    killAll();
    count.killed += 1;
    await context.close().catch(() => undefined);
    await tear();
    if (kill % 10 === 0) console.log(`${kill} kills: ${JSON.stringify(count)}`);
  }
} finally {
  killAll();
  await site.close();
  await rm(folder, { recursive: true, force: true });
}
console.log(
  `${count.killed} kills, ${count.torn} logs torn: ${count.lost} lost, ${count.late} late, ${count.told} losses told`,
);
process.exitCode = count.lost === 0 ? 0 : 1;

/** Names the plan again and again for a moment; gives the last name that was two seconds old. */
async function edit(page, kill) {
  const names = [];
  const field = page.getByLabel('Name of the plan');
  const until = Date.now() + 2500 + 2000 * chance();
  for (let step = 1; Date.now() < until; step += 1) {
    const name = `Kill ${kill} step ${step}`;
    await field.fill(name);
    await field.press('Enter');
    names.push({ name, at: Date.now() });
    await page.waitForTimeout(150);
  }
  const end = Date.now();
  return {
    kill,
    step:
      names.findLast(({ at }) => end - at >= 2000) === undefined
        ? 0
        : stepOf(names.findLast(({ at }) => end - at >= 2000).name),
  };
}

function stepOf(name) {
  return Number(/step (\d+)/.exec(name)?.[1] ?? Number.NaN);
}

/** What the list of kept plans has of the plan that was killed, and what the page says. */
async function look(page) {
  await page
    .waitForFunction(() => document.querySelector('[data-notice="found"], [data-notice="lost-and-found"]') !== null)
    .catch(() => undefined);
  const text = await page.locator('header').textContent();
  if (await page.locator('[data-notice="lost-and-found"]').count()) count.told += 1;
  const works = await page.evaluate(async () => {
    const answered = (request) =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await answered(indexedDB.open('rillwright', 1));
    const all = await answered(database.transaction('kept').objectStore('kept').getAll());
    database.close();
    return all.flatMap(({ plans }) => plans ?? []).map(({ name }) => name);
  });
  const found = works.filter((name) => name.startsWith(`Kill ${expected.kill} `)).map(stepOf);
  if (found.length === 0 && expected.step > 0) {
    count.lost += 1;
    console.log(`kill ${expected.kill}: lost; the page says: ${text.slice(0, 300)}`);
  } else if (Math.max(0, ...found) < expected.step) {
    count.late += 1;
    console.log(`kill ${expected.kill}: found step ${Math.max(0, ...found)}, expected ${expected.step} or later`);
  }
}

/** Ends every process of the browser of this folder at once, and no other. */
function killAll() {
  for (const line of execFileSync('ps', ['-eo', 'pid=,args=']).toString().split('\n')) {
    if (!line.includes(`--user-data-dir=${folder}`)) continue;
    try {
      process.kill(Number(line.trim().split(' ', 1)[0]), 'SIGKILL');
    } catch {
      // It had ended.
    }
  }
}

/** Does to the newest log of the database what a power cut could do. */
async function tear() {
  const names = Object.keys(ACCIDENTS);
  const accident = ACCIDENTS[names[Math.floor(chance() * names.length)]];
  if (accident === null) return;
  const base = join(folder, 'Default', 'IndexedDB');
  const stores = (await readdir(base).catch(() => [])).filter((name) => name.endsWith('.leveldb'));
  for (const store of stores) {
    for (const name of await readdir(join(base, store))) {
      if (!name.endsWith('.log')) continue;
      const bytes = await readFile(join(base, store, name));
      await writeFile(join(base, store, name), accident(bytes, Math.floor(bytes.length * (0.3 + 0.7 * chance()))));
      count.torn += 1;
    }
  }
}
