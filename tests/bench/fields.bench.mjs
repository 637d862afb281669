// Passes over every cell of 2000 × 2000, each as a multiple of a slope pass over the same cells in the same run.
import { importBundled } from '../../scripts/lib/bundle-source.mjs';
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
