// 300 made-up plans on the ground of the demo valley and on made ground, mended: how many run before and after, and what is left
// of the rest. `npm run bench -- mending FILE…` does the same on elevation files of one's own.
import { readFile } from 'node:fs/promises';
import { madeGround } from '../../scripts/bench/made-ground.mjs';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const SIDE = 512;
const GENTLE = { fall: [1, 6], rise: [3, 30] };
const STEEP = { fall: [2, 12], rise: [8, 60] };
const FLAT = { fall: [0.7, 12], rise: [1, 60] };

/** Grounds with how many plans are drawn on each. */
const MADE = [
  { name: 'gentle made ground', plans: 75, lie: GENTLE, make: { side: SIDE, hurst: 0.9, relief: 40, seed: 3 } },
  { name: 'steep made ground', plans: 75, lie: STEEP, make: { side: SIDE, hurst: 0.7, relief: 150, seed: 5 } },
];
const DEMO_PLANS = 150;
const FILE_PLANS = 50;

export async function bench(report, { files }) {
  const parts = await importBundled('tests/bench/mending-parts.ts');
  const demo = parts.readPlan(await readFile('data/demo/plan.geojson', 'utf8')).value;
  const onFile = async (path, use) => {
    const source = await parts.openFileSource(path);
    const opened = await parts.openTerrain([source], { answers: {}, accuracy: null });
    if (opened.kind !== 'opened') throw new Error(`${path}: ${JSON.stringify(opened.problems ?? opened.questions)}`);
    await use(opened.terrain);
    await source.close();
  };
  for (const path of files) {
    await onFile(path, (terrain) =>
      walk(report, parts, {
        name: path.split('/').at(-1),
        terrain,
        plans: FILE_PLANS,
        planOf: (seed) => parts.placedPlan(demo, terrain, seed, FLAT),
      }),
    );
  }
  if (files.length > 0) return;
  await onFile('data/demo/dem.tif', (terrain) =>
    walk(report, parts, {
      name: 'demo valley',
      terrain,
      plans: DEMO_PLANS,
      planOf: (seed) => parts.seededPlan(demo, seed),
    }),
  );
  for (const { name, plans, lie, make } of MADE) {
    const heights = madeGround(make);
    const terrain = await parts.terrainOfGrids([parts.gridOf(SIDE, SIDE, (c, r) => heights[r * SIDE + c])]);
    await walk(report, parts, { name, terrain, plans, planOf: (seed) => parts.placedPlan(demo, terrain, seed, lie) });
  }
}

async function walk(report, parts, { name, terrain, plans, planOf }) {
  const groundFor = (plan) => parts.groundOfPlan(plan, terrain);
  const [before, after, left] = [new Map(), new Map(), new Map()];
  const count = (map, key) => map.set(key, (map.get(key) ?? 0) + 1);
  let steps = 0;
  let silent = 0;
  let drawn = 0;
  const start = process.cpuUsage();
  for (let seed = 1; seed <= plans; seed++) {
    const plan = await planOf(seed);
    if (plan === null) continue;
    drawn += 1;
    const ground = await groundFor(plan);
    count(before, parts.evaluateDrawn(plan, ground, { count: 512, seed: 1 }).answer.state);
    const mended = await parts.mend({ plan, ground }, groundFor);
    const { state } = mended.standing.evaluation.answer;
    steps += mended.steps.length;
    count(after, state);
    if (state === 'runs') continue;
    if (mended.left.length === 0) silent += 1;
    for (const { finding, because } of mended.left) count(left, `${finding.code}: ${because}`);
  }
  const { user, system } = process.cpuUsage(start);
  report(`${name}, plans`, drawn, '');
  for (const [state, n] of before) report(`${name}, before, ${state}`, (100 * n) / drawn, '%');
  for (const [state, n] of after) report(`${name}, after, ${state}`, (100 * n) / drawn, '%');
  report(`${name}, neither runs nor says why not`, silent, 'plans');
  for (const [what, n] of left) report(`${name}, left, ${what}`, n, 'plans');
  report(`${name}, steps a plan`, steps / drawn, '');
  report(`${name}, a plan`, (user + system) / 1000 / drawn, 'ms CPU');
}
