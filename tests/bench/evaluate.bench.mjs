// The evaluation of the demo with five tanks: to first order, and by 2 048 draws.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';
import { root } from '../../scripts/lib/run-program.mjs';

const demo = (name) => join(root, 'data', 'demo', name);

/** The demo plan with its tanks and delivery lines repeated until there are five. */
function withFiveTanks(plan) {
  const tanks = plan.points.filter((p) => p.role === 'tank');
  const more = Array.from({ length: 5 - tanks.length }, (_, i) => ({
    of: tanks[i % tanks.length],
    suffix: `-again-${i}`,
  }));
  const lineTo = (tank) => plan.routes.find((r) => r.role === 'delivery' && r.to === tank.id);
  return {
    ...plan,
    points: [...plan.points, ...more.map(({ of, suffix }) => ({ ...of, id: of.id + suffix }))],
    routes: [
      ...plan.routes,
      ...more.map(({ of, suffix }) => ({ ...lineTo(of), id: lineTo(of).id + suffix, to: of.id + suffix })),
    ],
  };
}

async function demoGround(parts) {
  const read = parts.readPlan(await readFile(demo('plan.geojson'), 'utf8'));
  if (!read.ok) throw new Error(`demo plan: ${JSON.stringify(read.problems)}`);
  const plan = withFiveTanks(read.value);
  const file = await parts.openFileSource(demo('dem.tif'));
  const opened = await parts.openTerrain([file], { answers: {}, accuracy: null });
  const ground = await parts.groundOfPlan(plan, opened.terrain);
  await file.close();
  return { plan, ground };
}

/** Processor time of one call in ms: median of many. */
function medianMs(call, times) {
  const taken = [];
  for (let i = 0; i < times; i += 1) {
    const start = process.cpuUsage();
    call();
    const { user, system } = process.cpuUsage(start);
    taken.push((user + system) / 1000);
  }
  return taken.sort((a, b) => a - b)[times >> 1];
}

export async function bench(report) {
  const parts = await importBundled('tests/bench/evaluate-parts.ts');
  const { plan, ground } = await demoGround(parts);
  let sink = 0;
  const once = () => {
    sink += parts.evaluate(plan, ground).findings.length;
  };
  medianMs(once, 300);
  report('evaluate, five tanks', medianMs(once, 400), 'ms', `aim 1 ms; ${sink > 0 ? 'done' : ''}`);
  const order = { count: 2048, seed: 1 };
  const drawn = () => {
    sink += parts.evaluateDrawn(plan, ground, order).findings.length;
  };
  report('2 048 draws, five tanks', medianMs(drawn, 15), 'ms', 'aim 250 ms for 2 000');
}
