// What is wrong with a ram: time to draw and to rank, and how often the true cause comes first on simulated rams.
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const RAMS = 6;
const SEED = 11;
const ROUNDS = 7;

export async function bench(report) {
  const parts = await importBundled('scripts/bench/diagnosis-parts.ts');
  const { R50, drawsFor, diagnose, noReadings, documentCases, shareTables, sharesOf, UNSEPARABLE } = parts;
  const times = { draws: [], ranking: [] };
  const now = { ...noReadings, state: 'runs', beatsPerMinute: 46, waste: 50 / 60_000, deliveryAtPump: 4.4 / 60_000 };
  for (let round = 0; round < ROUNDS; round++) {
    const start = process.cpuUsage();
    const draws = drawsFor(R50, null);
    const between = process.cpuUsage(start);
    diagnose(draws, { record: null, now });
    const end = process.cpuUsage(start);
    times.draws.push((between.user + between.system) / 1000);
    times.ranking.push((end.user + end.system - between.user - between.system) / 1000);
  }
  report('draws of all causes, once for a ram', Math.min(...times.draws), 'ms of processor', 'aim 300 or less');
  report('ranking and next tests, for every reading', Math.min(...times.ranking), 'ms of processor');
  const cases = documentCases(RAMS, SEED);
  // A soft pipe is the same as air in the water to these readings; docs/diagnosis.md says so.
  const separable = cases.filter(({ truth }) => truth !== UNSEPARABLE);
  for (const how of ['withRecord', 'without']) {
    const { first, amongThree, cases: count } = sharesOf(separable, how);
    const words = how === 'withRecord' ? 'beside its record' : 'without a record';
    report(
      `true cause first, ${words}`,
      100 * first,
      '%',
      `${count} cases; among three ${Math.round(100 * amongThree)} %`,
    );
  }
  console.log(shareTables(cases).replaceAll(/^/gm, '  '));
}
