// Runs the benchmarks in tests/bench: each exports `bench(report, options)`, and may export `skipped(options)`, which gives
// the reason why it cannot run here, or null.
import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { root } from './lib/run-program.mjs';

const { values, positionals } = parseArgs({
  options: { 'against-gdal': { type: 'boolean', default: false } },
  allowPositionals: true,
});
/** What is a file is data for the benchmarks; the other words choose among them. */
const files = positionals.filter((word) => existsSync(word));
const words = positionals.filter((word) => !files.includes(word));
const options = { againstGdal: values['against-gdal'], files };

/** One aligned line: what was measured, the figure, its unit, a note. */
function report(what, figure, unit, note = '') {
  const shown = typeof figure === 'number' ? figure.toPrecision(4) : String(figure);
  console.log(`  ${what.padEnd(56)} ${shown.padStart(12)} ${unit.padEnd(14)} ${note}`.trimEnd());
}

const folder = join(root, 'tests', 'bench');
const benches = (await readdir(folder))
  .filter((name) => name.endsWith('.bench.mjs'))
  .filter((name) => words.length === 0 || words.some((part) => name.includes(part)))
  .sort();
if (benches.length === 0) {
  console.error(`tests/bench: found no benchmark${words.length > 0 ? ` named ${words.join(', ')}` : ''}`);
  process.exit(1);
}

let broken = 0;
for (const file of benches) {
  console.log(file.slice(0, -'.bench.mjs'.length));
  try {
    const { bench, skipped } = await import(pathToFileURL(join(folder, file)).href);
    const reason = (await skipped?.(options)) ?? null;
    if (reason === null) await bench(report, options);
    else console.log(`  not run: ${reason}`);
  } catch (error) {
    broken += 1;
    console.log(`  FAIL ${error.stack}`);
  }
}
process.exitCode = broken === 0 ? 0 : 1;
