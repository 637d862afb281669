// Are the 10-to-90 bands of a height difference honest? Averages a 1 m DEM to cells of 3, 10 and 30 m, lets the planner read
// the coarse grid as the accuracy class it takes it for, and counts how often the band holds the 1 m value.
//
// Averaged lidar has no survey error of its own, so two shares are counted: with an error drawn from the class added to every
// difference (on flat ground that share is 80 % by construction; what is tested is what averaging does on slopes, valley floors
// and ridges), and of averaging alone, which the wider band of a coarse product ought to hold nearly always. "As drawn" adds
// the placement of a point on a map, "noted" is the smoothing that the planner shows beside the heights.
//
//   node scripts/bench/height-bands.mjs [DEM…]        (the demo valley when none is named)
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { importBundled } from '../lib/bundle-source.mjs';

const DEMO = fileURLToPath(new URL('../../data/demo/dem.tif', import.meta.url));
const FACTORS = [3, 10, 30];
const PAIRS = 4000;
const NEAREST = 20;
const FARTHEST = 500;
/** Valley floors and ridges: the lowest and highest twentieth by height above the mean of a square of 61 m. */
const REACH = 30;
const SHARE = 0.05;
/** Half width of a 10-to-90 band of a normal error, in standard deviations. */
const Z90 = 1.2815515655446004;
const MOST_CELLS = 4000;

export async function measureBands(path) {
  const parts = await importBundled('scripts/bench/height-bands-parts.ts');
  const fine = await loadSquare(parts, path);
  const rows = [];
  for (const factor of FACTORS) {
    const coarse = averaged(parts, fine, factor);
    for (const [terrain, pairs] of Object.entries(pairsOf(fine))) {
      rows.push({ terrain, ...(await coverage(parts, fine, coarse, pairs)) });
    }
  }
  return { name: basename(path), rows };
}

async function loadSquare(parts, path) {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    const source = {
      name: basename(path),
      size,
      async read(slices) {
        return Promise.all(
          slices.map(async ({ offset, length }) => {
            const bytes = new Uint8Array(length);
            await file.read(bytes, 0, length, offset);
            return bytes;
          }),
        );
      },
    };
    const opened = await parts.openElevation(source, { noData: undefined });
    if (opened.kind !== 'opened') throw new Error(`${path}: ${JSON.stringify(opened.problems ?? opened.question)}`);
    const grid = opened.value;
    const columns = Math.min(grid.columns, MOST_CELLS);
    const rows = Math.min(grid.rows, MOST_CELLS);
    const block = await grid.read({ column: 0, row: 0, columns, rows });
    const memory = new parts.MemoryGrid({
      name: source.name,
      columns,
      rows,
      affine: grid.affine,
      crs: grid.crs,
      quantum: grid.quantum,
      heights: Float64Array.from(block.heights),
      known: block.known,
    });
    return { ...(await placedOf(parts, memory)), heights: Float64Array.from(block.heights), known: block.known };
  } finally {
    await file.close();
  }
}

async function placedOf(parts, grid) {
  const projection = await parts.projectionOf(grid.crs);
  if (!projection.ok) throw new Error(JSON.stringify(projection.problems));
  const placed = parts.placedGrid(grid, projection.value);
  const cell = parts.cellSize(parts.cellOnGround(placed, { column: grid.columns / 2, row: grid.rows / 2 }));
  return { grid, placed, cell: Math.sqrt(cell.width * cell.height), columns: grid.columns, rows: grid.rows };
}

/** Block means; a block with a void is one. */
function averaged(parts, fine, factor) {
  const columns = Math.floor(fine.columns / factor);
  const rows = Math.floor(fine.rows / factor);
  const heights = new Float64Array(columns * rows);
  const known = new Uint8Array(columns * rows).fill(1);
  for (let r = 0; r < rows * factor; r++) {
    for (let c = 0; c < columns * factor; c++) {
      const to = Math.floor(r / factor) * columns + Math.floor(c / factor);
      const from = r * fine.columns + c;
      if (fine.known[from] === 0) known[to] = 0;
      heights[to] += fine.heights[from] / factor ** 2;
    }
  }
  const { a, b, c, d, e, f } = fine.grid.affine;
  const affine = { a: a * factor, b: b * factor, c, d: d * factor, e: e * factor, f };
  const grid = new parts.MemoryGrid({
    name: 'averaged',
    columns,
    rows,
    affine,
    crs: fine.grid.crs,
    quantum: 0,
    heights,
    known,
  });
  return { placed: parts.placedGrid(grid, fine.placed.projection), cell: fine.cell * factor };
}

/** Pairs of places 20 to 500 m apart, in cells of the fine grid: anywhere, and from valley floors to ridges. */
function pairsOf(fine) {
  const random = seeded(20251125);
  const pick = (count) => Math.floor(random() * count);
  const margin = REACH + 1;
  const anywhere = () => [
    margin + random() * (fine.columns - 2 * margin),
    margin + random() * (fine.rows - 2 * margin),
  ];
  const { valleys, ridges } = landforms(fine, margin);
  const from = (list) => {
    const k = list[pick(list.length)];
    return [(k % fine.columns) + random(), Math.floor(k / fine.columns) + random()];
  };
  return {
    anywhere: collect(fine, anywhere, anywhere),
    'valley floor to ridge': collect(
      fine,
      () => from(valleys),
      () => from(ridges),
    ),
  };
}

function collect(fine, first, second) {
  const pairs = [];
  for (let tries = 0; pairs.length < PAIRS && tries < PAIRS * 200; tries++) {
    const p = first();
    const q = second();
    const distance = Math.hypot(p[0] - q[0], p[1] - q[1]) * fine.cell;
    if (distance >= NEAREST && distance <= FARTHEST) pairs.push({ p, q, distance });
  }
  return pairs;
}

function landforms(fine, margin) {
  const above = [];
  const total = summed(fine);
  for (let r = margin; r < fine.rows - margin; r += 3) {
    for (let c = margin; c < fine.columns - margin; c += 3) {
      const k = r * fine.columns + c;
      const { mean, whole } = total(c - REACH, r - REACH, 2 * REACH + 1);
      if (whole) above.push([fine.heights[k] - mean, k]);
    }
  }
  above.sort((x, y) => x[0] - y[0]);
  const count = Math.max(1, Math.floor(above.length * SHARE));
  return { valleys: above.slice(0, count).map((x) => x[1]), ridges: above.slice(-count).map((x) => x[1]) };
}

/** Means over squares from a summed-area table. */
function summed({ heights, known, columns, rows }) {
  const width = columns + 1;
  const z = new Float64Array(width * (rows + 1));
  const n = new Float64Array(width * (rows + 1));
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const at = (r + 1) * width + c + 1;
      z[at] = heights[r * columns + c] + z[at - 1] + z[at - width] - z[at - width - 1];
      n[at] = known[r * columns + c] + n[at - 1] + n[at - width] - n[at - width - 1];
    }
  }
  return (left, top, side) => {
    const over = (t) =>
      t[(top + side) * width + left + side] -
      t[top * width + left + side] -
      t[(top + side) * width + left] +
      t[top * width + left];
    return { mean: over(z) / side ** 2, whole: over(n) === side ** 2 };
  };
}

async function coverage(parts, fine, coarse, pairs) {
  const random = seeded(7);
  const spots = pairs.flatMap(({ p, q }) => [p, q]).map(([column, row]) => fine.placed.positionAt({ column, row }));
  const truth = await parts.groundAt([fine.placed], spots);
  const read = await parts.groundAt([coarse.placed], spots);
  const { accuracy } = parts.inferHeightAccuracy({ files: ['averaged'], cell: coarse.cell, quantum: 0 });
  const rows = pairs.flatMap(({ distance }, k) => {
    const [t1, t2, c1, c2] = [truth[2 * k], truth[2 * k + 1], read[2 * k], read[2 * k + 1]];
    if ([t1, t2, c1, c2].some((point) => point.ground === null)) return [];
    const error = c2.ground - c1.ground - (t2.ground - t1.ground);
    const smoothing = c2.smoothing - c1.smoothing;
    const place = { distance, slopes: [c1.slope, c2.slope], smoothing: [c1.smoothing, c2.smoothing] };
    const sigma = Math.sqrt(parts.varianceOfDifference(accuracy, place));
    const unplaced = Math.sqrt(parts.varianceOfDifference({ ...accuracy, placement: 0 }, place));
    const surveyed = Math.sqrt(parts.varianceOfDifference({ ...accuracy, placement: 0 }, { distance, slopes: [0, 0] }));
    return [{ error, sigma, unplaced, smoothing, whole: error + surveyed * normal(random) }];
  });
  const share = (holds) => rows.filter(holds).length / rows.length;
  return {
    class: accuracy.id,
    cell: coarse.cell,
    pairs: rows.length,
    averaging: share((r) => Math.abs(r.error) <= Z90 * r.unplaced),
    survey: share((r) => Math.abs(r.whole) <= Z90 * r.unplaced),
    placed: share((r) => Math.abs(r.error) <= Z90 * r.sigma),
    rms: Math.sqrt(rows.reduce((s, r) => s + r.error ** 2, 0) / rows.length),
    bias: rows.reduce((s, r) => s + r.error, 0) / rows.length,
    noted: rows.reduce((s, r) => s + r.smoothing, 0) / rows.length,
    half: Z90 * median(rows.map((r) => r.unplaced)),
  };
}

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** Mulberry32: a small seeded generator, so that every run counts the same pairs. */
function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Box and Muller 1958. */
const normal = (random) => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

function print({ name, rows }) {
  console.log(`${name}: share of differences inside the 10-to-90 band (aim 75 to 85 %)`);
  console.log(
    '  cells  class               pairs from             with survey error  averaging alone  as drawn  rms m  bias m  noted m  half band m',
  );
  for (const r of rows) {
    const percent = (v, width) => `${(100 * v).toFixed(0)} %`.padStart(width);
    const metres = (v, width) => v.toFixed(2).padStart(width);
    console.log(
      `  ${`${r.cell.toFixed(0)} m`.padStart(5)}  ${r.class.padEnd(18)}  ${r.terrain.padEnd(22)} ${percent(r.survey, 17)} ${percent(r.averaging, 16)} ${percent(r.placed, 9)} ${metres(r.rms, 6)} ${metres(r.bias, 7)} ${metres(r.noted, 8)} ${metres(r.half, 12)}`,
    );
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const paths = process.argv.slice(2);
  for (const path of paths.length > 0 ? paths : [DEMO]) print(await measureBands(path));
}

export const demoBands = () => measureBands(DEMO);
