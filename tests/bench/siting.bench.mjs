// Proposed routes over a farm window of 2000 × 2000 cells of a metre: rolling ground with bumps of every size.
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const SIDE = 2000;
const ROUNDS = 3;

export async function bench(report) {
  const { proposeDelivery, proposeFalling, USUAL_ROUTE_SETTINGS } = await importBundled(
    'scripts/bench/siting-parts.ts',
  );
  const field = hills();
  const low = lowest(field, 300, 300);
  const high = highest(field, 1600, 1600);
  const near = lowest(field, 1500, 1500);
  const site = (from, to) => ({
    request: { from: end, to: end, role: 'delivery', settings: USUAL_ROUTE_SETTINGS },
    field,
    ends: { from, to },
    ground: { file: 'bench', coarser: 1, cell: { width: 1, height: 1 } },
    positionAt: ({ column, row }) => ({ lon: column * DEGREES_PER_CELL, lat: -row * DEGREES_PER_CELL }),
  });
  const jobs = [
    ['delivery line up a hill', proposeDelivery, site(low, high)],
    ['delivery line over to another hollow', proposeDelivery, site(near, low)],
    ['falling line down a hill', proposeFalling, site(high, near)],
    ['falling line, far', proposeFalling, site(high, low)],
    ['no falling line, and where it is blocked', proposeFalling, site(near, low)],
  ];
  for (const [what, propose, place] of jobs) {
    let followed = 0;
    let said = '';
    const times = [];
    for (let k = 0; k < ROUNDS; k++) {
      followed = 0;
      const start = process.cpuUsage();
      const found = await propose(place, { onProgress: (more) => (followed += more) });
      const { user, system } = process.cpuUsage(start);
      times.push((user + system) / 1000);
      said =
        found.kind === 'route' ? `${found.vertices.length} vertices${found.other ? ' or another' : ''}` : found.kind;
    }
    report(what, Math.min(...times), 'ms of processor', `${said}, ${followed} ways followed; aim 1500 or less`);
  }
}

const end = { position: { lon: 0, lat: 0 }, height: 0 };
/** Some metre on the equator. */
const DEGREES_PER_CELL = 1 / 111_320;

/** Value noise in octaves from 500 m to 4 m, each half as high as the one before: 60 m from hollow to hill. */
function hills() {
  const heights = new Float64Array(SIDE * SIDE);
  const random = seeded(7);
  for (let size = 500, height = 30; size >= 4; size /= 2, height /= 2) {
    const n = Math.ceil(SIDE / size) + 2;
    const knots = Float64Array.from({ length: n * n }, random);
    for (let row = 0; row < SIDE; row++) {
      for (let column = 0; column < SIDE; column++) {
        const [c, t] = smooth(column / size);
        const [r, s] = smooth(row / size);
        const at = r * n + c;
        const top = knots[at] * (1 - t) + knots[at + 1] * t;
        const bottom = knots[at + n] * (1 - t) + knots[at + n + 1] * t;
        heights[row * SIDE + column] += height * (top * (1 - s) + bottom * s);
      }
    }
  }
  const cell = { eastPerColumn: 1, northPerColumn: 0, eastPerRow: 0, northPerRow: -1 };
  return { columns: SIDE, rows: SIDE, heights, known: new Uint8Array(SIDE * SIDE).fill(1), cell };
}

function smooth(x) {
  const whole = Math.floor(x);
  const t = x - whole;
  return [whole, t * t * (3 - 2 * t)];
}

const AROUND = 200;

const lowest = (field, column, row) => extreme(field, column, row, (a, b) => a < b);
const highest = (field, column, row) => extreme(field, column, row, (a, b) => a > b);

function extreme(field, column, row, better) {
  let best = { column, row };
  for (let r = row - AROUND; r <= row + AROUND; r++) {
    for (let c = column - AROUND; c <= column + AROUND; c++) {
      if (better(field.heights[r * SIDE + c], field.heights[best.row * SIDE + best.column]))
        best = { column: c, row: r };
    }
  }
  return best;
}

function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}
