// 300 made-up plans on the ground of the demo valley, mended: how many run before and after, and what is left of the rest.
import { readFile } from 'node:fs/promises';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const PLANS = 300;

export async function bench(report) {
  const parts = await importBundled('tests/bench/mending-parts.ts');
  const demo = parts.readPlan(await readFile('data/demo/plan.geojson', 'utf8')).value;
  const source = await parts.openFileSource('data/demo/dem.tif');
  const opened = await parts.openTerrain([source], { answers: {}, accuracy: null });
  const groundFor = (plan) => parts.groundOfPlan(plan, opened.terrain);
  const [before, after, left] = [new Map(), new Map(), new Map()];
  const count = (map, key) => map.set(key, (map.get(key) ?? 0) + 1);
  let steps = 0;
  const start = process.cpuUsage();
  for (let seed = 1; seed <= PLANS; seed++) {
    const plan = parts.seededPlan(demo, seed);
    const ground = await groundFor(plan);
    count(before, parts.evaluateDrawn(plan, ground, { count: 512, seed: 1 }).answer.state);
    const mended = await parts.mend({ plan, ground }, groundFor);
    const { state } = mended.standing.evaluation.answer;
    steps += mended.steps.length;
    count(after, state);
    if (state === 'runs') continue;
    for (const { finding, because } of mended.left) count(left, `${finding.code}: ${because}`);
  }
  const { user, system } = process.cpuUsage(start);
  await source.close();
  for (const [state, n] of before) report(`before, ${state}`, (100 * n) / PLANS, '%');
  for (const [state, n] of after) report(`after, ${state}`, (100 * n) / PLANS, '%');
  for (const [what, n] of left) report(`left where it does not run for sure, ${what}`, n, 'plans');
  report('steps a plan', steps / PLANS, '');
  report('a plan', (user + system) / 1000 / PLANS, 'ms CPU');
}
