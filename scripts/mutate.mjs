// Whether the tests would notice a mistake: Stryker makes mistakes in a seeded sample of the lines of the numerical rooms, one
// at a time, and runs the tests that reach them. Prints every mistake that no test noticed, then the share that was noticed.
// `node scripts/mutate.mjs [--lines 300] [--seed 1] [--only siting,ram]`
import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { parseArgs } from 'node:util';
import { chanceAt } from './demo-data/random.mjs';
import { root, runNode, tool } from './lib/run-program.mjs';

const ROOMS = ['ram', 'hydraulics', 'evaluation', 'terrain', 'siting'];
/** Words say which unit or file is meant; a test that held them would hold a sentence. */
const WORDS = ['StringLiteral', 'Regex'];

const { values } = parseArgs({
  options: {
    lines: { type: 'string', default: '300' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: ROOMS.join(',') },
  },
});
const rooms = values.only.split(',');
const strange = rooms.find((room) => !ROOMS.includes(room));
if (strange !== undefined) throw new Error(`--only: found ${strange}, expected some of ${ROOMS.join(', ')}`);

/** Lines that may hold a mistake: those of a file's code, not its imports, comments and brackets. */
async function linesOf(file) {
  const text = await readFile(join(root, file), 'utf8');
  return text.split('\n').flatMap((line, k) => {
    const code = line.trim();
    const idle = /^(?:import |export type |export interface |readonly |\/\/|\/?\*)/.test(code) || !/[\w]{2}/.test(code);
    return idle ? [] : [{ file, line: k + 1 }];
  });
}

async function everyLine() {
  const entries = await Promise.all(
    rooms.map((room) => readdir(join(root, 'src', room), { recursive: true, withFileTypes: true })),
  );
  const files = entries
    .flat()
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .sort();
  return (await Promise.all(files.map(linesOf))).flat();
}

/** So many of the lines, each as likely as any other; the same for the same seed. */
function sampled(lines, count, seed) {
  const drawn = lines.map((line, k) => ({ line, chance: chanceAt(k, 0, seed) }));
  return drawn
    .sort((one, other) => one.chance - other.chance)
    .slice(0, count)
    .map(({ line }) => line);
}

const folder = join(root, 'build', 'mutation');
await rm(folder, { recursive: true, force: true });
await mkdir(folder, { recursive: true });
const chosen = sampled(await everyLine(), Number(values.lines), Number(values.seed));
const report = join(folder, 'report.json');
const config = {
  testRunner: 'vitest',
  vitest: { configFile: 'vitest.mutation.config.ts' },
  mutate: chosen.map(({ file, line }) => `${file}:${line}-${line}`),
  mutator: { excludedMutations: WORDS },
  coverageAnalysis: 'perTest',
  concurrency: 1,
  reporters: ['json', 'progress-append-only'],
  jsonReporter: { fileName: report },
  tempDirName: 'build/mutation/sandbox',
  ignorePatterns: ['build', 'dist', 'docs', 'tests/bench', 'data/demo'],
  timeoutMS: 20_000,
};
const configFile = join(folder, 'stryker.json');
await writeFile(configFile, JSON.stringify(config, null, 2));
const env = { ...process.env, MUTATED_ROOMS: rooms.join(',') };
const { code } = await runNode([tool('@stryker-mutator/core/bin/stryker.js'), 'run', configFile], { show: true, env });
if (code !== 0) throw new Error(`Stryker ended with code ${code}, expected 0`);

const { files } = JSON.parse(await readFile(report, 'utf8'));
const mutants = Object.entries(files).flatMap(([file, { mutants: each, source }]) =>
  each.map((mutant) => ({ ...mutant, file, code: source.split('\n')[mutant.location.start.line - 1].trim() })),
);
const noticed = mutants.filter(({ status }) => status === 'Killed' || status === 'Timeout');
const missed = mutants.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
for (const { file, location, code: line, replacement, status } of missed) {
  console.log(
    `${status === 'NoCoverage' ? 'no test' : 'missed '}  ${file}:${location.start.line}  ${line}\n         → ${replacement}`,
  );
}
const all = noticed.length + missed.length;
console.log(
  `seed ${values.seed}, ${chosen.length} lines of ${rooms.join(', ')}: ${all} mistakes, ${missed.length} not noticed`,
);
console.log(`${((100 * noticed.length) / all).toFixed(1)} % noticed`);
