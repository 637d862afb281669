// Proposed routes over a farm window of 2000 × 2000 cells of a metre: rolling ground with bumps of every size.
import { importBundled } from '../../scripts/lib/bundle-source.mjs';
import { hills } from './hills.mjs';

const SIDE = 2000;
const ROUNDS = 3;

export async function bench(report) {
  const { proposeDelivery, proposeFalling, USUAL_ROUTE_SETTINGS } = await importBundled(
    'scripts/bench/siting-parts.ts',
  );
  const field = hills(SIDE);
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
