// Passes over every cell of 2000 × 2000, each as a multiple of a slope pass over the same cells in the same run.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';
import { root } from '../../scripts/lib/run-program.mjs';
import { hills } from './hills.mjs';

const SIDE = 2000;
const ROUNDS = 3;

export async function bench(report) {
  const parts = await importBundled('tests/bench/fields-parts.ts');
  const { heights, known, cell } = hills(SIDE);
  const ground = { columns: SIDE, rows: SIDE, heights: Float32Array.from(heights), open: known, cell };
  const middle = (SIDE / 2) * SIDE + SIDE / 2;
  const seed = { cell: middle, level: ground.heights[middle] };
  const top = ground.heights.reduce((best, z, i) => (z > ground.heights[best] ? i : best), 0);
  const slope = best(() => slopePass(ground));
  report('slope pass, the measure of the rest', slope, 'ms');
  const reach = await reachOn(parts, ground, middle);
  const passes = [
    ['governing level', 13, () => parts.governingLevel(ground, seed)],
    ['length over 16 neighbours', 16, () => parts.waysFrom(ground, seed, { kind: 'shortest' }, 0.3)],
    [
      'least head over 16 neighbours',
      null,
      () => parts.waysFrom(ground, seed, { kind: 'least-head', friction: 0.02 }, 0.3),
    ],
    [
      'highest falling pipe',
      2.5,
      () =>
        parts.fallingPipe(
          ground,
          { cell: top, level: ground.heights[top] },
          { leastFall: 0.002, deepest: 0.3, highest: 0 },
        ),
    ],
    ['flood from the edge, directions and accumulation', 24, () => parts.accumulation(ground, parts.flood(ground))],
    ['delivery with its doubt from the table, of two ways', 3.3, () => fill(parts, reach)],
    ['short dams cut through', null, () => parts.breached(ground, parts.USUAL_BREACH)],
  ];
  for (const [what, aim, pass] of passes) {
    const taken = best(pass);
    report(
      what,
      taken / slope,
      '× slope pass',
      `${taken.toFixed(0)} ms${aim === null ? '' : `; aim ${aim} × 1.3 or less`}`,
    );
  }
}

/** What a reach map of the hills is made of: the demo's pump in their middle. */
async function reachOn(parts, ground, pump) {
  const demo = (name) => join(root, 'data', 'demo', name);
  const { value: plan } = parts.readPlan(await readFile(demo('plan.geojson'), 'utf8'));
  const file = await parts.openFileSource(demo('dem.tif'));
  const { terrain } = await parts.openTerrain([file], { answers: {}, accuracy: null });
  const on = await parts.groundOfPlan(plan, terrain);
  await file.close();
  const pipe = parts.deliveryPipeOf(plan);
  const table = parts.deliveryTable({ plan, ground: on, pipe, mostLift: 600, mostLength: 20_000 });
  const seed = { cell: pump, level: ground.heights[pump] };
  const ways = [{ kind: 'shortest' }, { kind: 'least-head', friction: table.friction }].map((aim) =>
    parts.waysFrom(ground, seed, aim, 0.3),
  );
  const wish = {
    ground,
    ways,
    table,
    pump: { cell: pump, valve: ground.heights[pump] - 20 },
    source: { cell: pump - 60 },
    inletHeight: 1.2,
    accuracy: on.accuracy,
  };
  return { wish, map: parts.emptyReachMap(ground) };
}

function fill(parts, { wish, map }) {
  parts.fillReachMap(map, wish);
  return map;
}

/** Least processor time of a few rounds, ms. */
function best(pass) {
  let least = Number.POSITIVE_INFINITY;
  let kept = null;
  for (let k = 0; k < ROUNDS; k++) {
    const start = process.cpuUsage();
    kept = pass();
    const { user, system } = process.cpuUsage(start);
    least = Math.min(least, (user + system) / 1000);
  }
  if (kept === null) throw new Error('a pass: found no answer, expected one');
  return least;
}

/** Slope of every cell by Horn's gradient, as any map of slopes is made. */
function slopePass({ columns, rows, heights, cell }) {
  const out = new Float32Array(columns * rows);
  const dx = 8 * Math.abs(cell.eastPerColumn);
  const dy = 8 * Math.abs(cell.northPerRow);
  for (let row = 1; row < rows - 1; row++) {
    for (let column = 1; column < columns - 1; column++) {
      const i = row * columns + column;
      const [a, b, c] = [heights[i - columns - 1], heights[i - columns], heights[i - columns + 1]];
      const [d, f] = [heights[i - 1], heights[i + 1]];
      const [g, h, k] = [heights[i + columns - 1], heights[i + columns], heights[i + columns + 1]];
      const x = (c + 2 * f + k - a - 2 * d - g) / dx;
      const y = (g + 2 * h + k - a - 2 * b - c) / dy;
      out[i] = Math.sqrt(x * x + y * y);
    }
  }
  return out;
}
