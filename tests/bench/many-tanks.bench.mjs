// Plans with many tanks: what the answer costs against that of one tank with the same pump, to first order and by draws.
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const RAM = {
  kind: 'ram',
  label: 'invented',
  count: 1,
  driveBore: 0.035,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  valveWeightHead: null,
  valveStroke: 0.005,
  checkLag: 0.003,
  airChamber: 0.002,
  measured: null,
};
const DRAWS = { count: 4096, seed: 1 };

/** The working plan of the tests with so many tanks beside each other, each with a line of its own. */
function withTanks({ tank, route, workingPlan, workingHeights, workingLengths, madeGround, lidar }, count, pump) {
  const tanks = Array.from({ length: count }, (_, at) => ({
    ...tank,
    id: `tank-${at}`,
    position: { lon: tank.position.lon + at * 1e-5, lat: tank.position.lat },
  }));
  const kept = workingPlan.points.filter(({ role }) => role !== 'tank' && role !== 'trough');
  const feeding = workingPlan.routes.filter(({ role }) => role === 'supply' || role === 'drive');
  const lines = tanks.map(({ id }) => ({ ...route(`to-${id}`, 'delivery', 'ram', 'tank', 'pe25'), to: id }));
  const plan = { ...workingPlan, pump, points: [...kept, ...tanks], routes: [...feeding, ...lines] };
  const heights = { ...workingHeights, ...Object.fromEntries(tanks.map(({ id }, at) => [id, 115 + (at % 20)])) };
  const lengths = { ...workingLengths, ...Object.fromEntries(lines.map(({ id }, at) => [id, 250 + at])) };
  return { plan, ground: madeGround(plan, { heights, lengths, accuracy: lidar }) };
}

/** Processor time of one call in ms, the least of some. */
function leastMs(call, times) {
  const taken = Array.from({ length: times }, () => {
    const start = process.cpuUsage();
    call();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return Math.min(...taken);
}

export async function bench(report) {
  const parts = await importBundled('tests/bench/many-parts.ts');
  for (const [name, pump] of [
    ['a sheet', parts.sheet],
    ['a ram by its parts', RAM],
  ]) {
    const base = {};
    for (const count of [1, 48, 200]) {
      const { plan, ground } = withTanks(parts, count, pump);
      const first = leastMs(() => parts.evaluate(plan, ground), 3);
      const drawn = leastMs(() => parts.evaluateDrawn(plan, ground, DRAWS), 2);
      base.first ??= first;
      base.drawn ??= drawn;
      const times = (now, one) => `${(now / one).toFixed(1)} times one tank`;
      report(`${count} tanks, ${name}: to first order`, first, 'ms', times(first, base.first));
      report(`${count} tanks, ${name}: 4 096 draws`, drawn, 'ms', `${times(drawn, base.drawn)}; aim for 200: 2 000 ms`);
    }
  }
}
