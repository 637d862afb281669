// Are the 10-to-90 bands of a height difference honest? Averages ground of 1 m cells to cells of 5, 10 and 30 m, lets the planner
// read the coarse grid as the accuracy class it takes it for, and counts how often the band holds the 1 m value (aim 75 to 85 %).
//
// Pairs are 20 to 500 m apart: anywhere; from valley floors to ridges (lowest and highest twentieth by height above the mean of
// a square of 61 m); from springs to tanks as a user places them (the lowest and the
// highest ground on a line of 40 m either way, as a stream or a crest is found on a map). The last two
// are read as low and high places, as the planner reads sources, pumps and tanks. Averaged lidar has no survey error of its own:
// one drawn from the class is added. "Placed" moves each point by the class's placement and counts it in the band; "exact" does
// neither. "Before" is the planner without the likely amount of averaging taken off, its variance a multiple of what shows.
//
//   npm run bench -- height-bands [DEM…]        (the demo valley and made ground when none is named)
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { importBundled } from '../lib/bundle-source.mjs';
import { madeGround, normal, seeded } from './made-ground.mjs';

const DEMO = fileURLToPath(new URL('../../data/demo/dem.tif', import.meta.url));
const FACTORS = [5, 10, 30];
const PAIRS = 4000;
const NEAREST = 20;
const FARTHEST = 500;
/** Valley floors and ridges: the lowest and highest twentieth by height above the mean of a square of 61 m. */
const REACH = 30;
const SHARE = 0.05;
/** Half width of a 10-to-90 band of a normal error, in standard deviations. */
const Z90 = 1.2815515655446004;
const MOST_CELLS = 2400;

export async function measureBands(path) {
  const parts = await importBundled('scripts/bench/height-bands-parts.ts');
  return bandsOf(parts, await loadSquare(parts, path), basename(path));
}

/** Bands on made ground, invented, of 1 m cells. */
export async function madeBands(ground) {
  const parts = await importBundled('scripts/bench/height-bands-parts.ts');
  const { side, hurst, relief, valleys } = ground;
  const heights = madeGround(ground);
  const grid = new parts.MemoryGrid({
    name: 'made',
    columns: side,
    rows: side,
    affine: { a: 1, b: 0, c: 500_000, d: 0, e: -1, f: 4_200_000 },
    crs: { kind: 'epsg', code: 32630 },
    quantum: 0,
    heights,
    known: new Uint8Array(side * side).fill(1),
  });
  const fine = { ...(await placedOf(parts, grid)), heights, known: new Uint8Array(side * side).fill(1) };
  const name = `made ground, Hurst ${hurst}, relief ${relief} m${valleys ? ', sharp valleys' : ''}`;
  return bandsOf(parts, fine, name);
}

async function bandsOf(parts, fine, name) {
  const rows = [];
  const kinds = pairsOf(fine);
  for (const factor of FACTORS) {
    const coarse = averaged(parts, fine, factor);
    for (const [terrain, pairs] of Object.entries(kinds)) {
      rows.push({ terrain, ...(await coverage(parts, fine, coarse, { pairs, landforms: LANDFORMS[terrain] })) });
    }
  }
  return { name, rows };
}

/** What the planner knows of the ends of a pair by their roles. */
const LANDFORMS = {
  anywhere: [null, null],
  'valley floor to ridge': ['low', 'high'],
  'spring to tank': ['low', 'high'],
};

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
    'spring to tank': collect(
      fine,
      () => extreme(fine, { from: anywhere(), turn: random(), sign: -1 }),
      () => extreme(fine, { from: anywhere(), turn: random(), sign: 1 }),
    ),
  };
}

/** How far a user looks around for the lowest or the highest ground, m. */
const LOOKED_AROUND = 40;

/** The lowest (−1) or highest (1) cell on a line across a place, as a stream or a crest is found on the map. */
function extreme(fine, { from: [x, y], turn, sign }) {
  const reach = Math.round(LOOKED_AROUND / fine.cell);
  const inside = (value, count) => Math.min(Math.max(Math.floor(value), REACH + 1), count - REACH - 2);
  let best = [x, y];
  let height = Number.NEGATIVE_INFINITY;
  for (let step = -reach; step <= reach; step++) {
    const c = inside(x + step * Math.cos(Math.PI * turn), fine.columns);
    const r = inside(y + step * Math.sin(Math.PI * turn), fine.rows);
    const k = r * fine.columns + c;
    if (fine.known[k] === 0 || sign * fine.heights[k] <= height) continue;
    height = sign * fine.heights[k];
    best = [c + 0.5, r + 0.5];
  }
  return best;
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

async function coverage(parts, fine, coarse, { pairs, landforms }) {
  const random = seeded(7);
  const { accuracy } = parts.inferHeightAccuracy({ files: ['averaged'], cell: coarse.cell, quantum: 0 });
  const spots = pairs.flatMap(({ p, q }) => [p, q]);
  const shift = accuracy.placement / fine.cell;
  const at = ([column, row]) => fine.placed.positionAt({ column, row });
  const truth = await parts.groundAt([fine.placed], spots.map(at));
  const exact = await parts.groundAt([coarse.placed], spots.map(at));
  const moved = spots.map(([column, row]) => [column + shift * normal(random), row + shift * normal(random)]);
  const placed = await parts.groundAt([coarse.placed], moved.map(at));
  const rows = pairs.flatMap(({ distance }, k) => {
    const ends = [2 * k, 2 * k + 1];
    const points = [truth, exact, placed].flatMap((list) => ends.map((i) => list[i]));
    if (points.some((point) => point.ground === null)) return [];
    const [t1, t2, e1, e2, p1, p2] = points;
    const rise = t2.ground - t1.ground;
    const surveyed = Math.sqrt(parts.varianceOfDifference({ ...accuracy, placement: 0 }, { distance, slopes: [0, 0] }));
    const survey = surveyed * normal(random);
    const judged = (from, to, placement) => {
      const slopes = [from.slope, to.slope];
      const rough = [from, to].map((point) => parts.roughSlope(point, coarse.cell));
      const sure = { ...accuracy, placement };
      const errors = [from, to].map((point, i) => parts.averagingError(point, coarse.cell, landforms[i]));
      const raw = to.ground - from.ground - rise;
      const mended = raw - (errors[1].likely - errors[0].likely);
      const before = parts.varianceOfDifference(sure, { distance, slopes, smoothing: [from.smoothing, to.smoothing] });
      const after = parts.varianceOfDifference(sure, {
        distance,
        slopes: rough,
        averaging: errors.map((e) => e.spread),
      });
      const holds = (error, variance) => Math.abs(error + survey) <= Z90 * Math.sqrt(variance);
      return { raw, mended, before: holds(raw, before), after: holds(mended, after), half: Z90 * Math.sqrt(after) };
    };
    return [{ exact: judged(e1, e2, 0), placed: judged(p1, p2, accuracy.placement) }];
  });
  const share = (holds) => rows.filter(holds).length / rows.length;
  const mean = (value) => rows.reduce((sum, row) => sum + value(row), 0) / rows.length;
  return {
    class: accuracy.id,
    cell: coarse.cell,
    pairs: rows.length,
    exact: share((r) => r.exact.after),
    placed: share((r) => r.placed.after),
    exactBefore: share((r) => r.exact.before),
    placedBefore: share((r) => r.placed.before),
    biasBefore: mean((r) => r.exact.raw),
    bias: mean((r) => r.exact.mended),
    half: median(rows.map((r) => r.exact.half)),
  };
}

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** Lines of a table. */
export function tableOf({ name, rows }) {
  const percent = (v, width) => `${(100 * v).toFixed(0)} %`.padStart(width);
  const metres = (v, width) => v.toFixed(2).padStart(width);
  return [
    `${name}: share of differences inside the 10-to-90 band, and bias (aim 75 to 85 %, 0 m)`,
    '  cells  class               pairs                     exact  before   placed  before   bias m  before  half band m',
    ...rows.map((r) =>
      [
        `  ${`${r.cell.toFixed(0)} m`.padStart(5)}  ${r.class.padEnd(18)}  ${r.terrain.padEnd(22)}`,
        percent(r.exact, 9) + percent(r.exactBefore, 8) + percent(r.placed, 9) + percent(r.placedBefore, 8),
        metres(r.bias, 8) + metres(r.biasBefore, 8) + metres(r.half, 11),
      ].join(''),
    ),
  ];
}

/** Grounds made when no file is named: rough and smooth, low and high, with and without sharp valleys. */
const MADE = [
  { side: 1024, hurst: 0.6, relief: 30, seed: 11 },
  { side: 1024, hurst: 0.75, relief: 120, seed: 12 },
  { side: 1024, hurst: 0.9, relief: 300, seed: 13 },
  { side: 1024, hurst: 0.75, relief: 170, seed: 14, valleys: true },
  { side: 1024, hurst: 0.9, relief: 170, seed: 15, valleys: true },
];

export async function allBands(paths) {
  const bands = [];
  for (const path of paths.length > 0 ? paths : [DEMO]) bands.push(await measureBands(path));
  if (paths.length === 0) for (const ground of MADE) bands.push(await madeBands(ground));
  return bands;
}
