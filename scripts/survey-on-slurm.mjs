// Runs a survey of springs in the demo's valley as a Slurm array on the cluster at hand, puts the parts together and compares
// them with the whole, to the byte. Needs sbatch; `--springs N` and `--parts N` set how many.
import { execFile, spawnSync } from 'node:child_process';
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs, promisify } from 'node:util';
import { root } from './lib/run-program.mjs';

const run = promisify(execFile);
const { values } = parseArgs({
  options: { springs: { type: 'string', default: '12' }, parts: { type: 'string', default: '4' } },
});
const springs = Number(values.springs);
const parts = Number(values.parts);

if (spawnSync('sbatch', ['--version']).status !== 0) {
  console.error('sbatch: found none, expected a Slurm cluster (Debian: slurm-wlm)');
  process.exit(1);
}
const folder = join(root, 'build', 'survey');
await rm(folder, { recursive: true, force: true });
await mkdir(folder, { recursive: true });
const file = join(folder, 'springs.ndjson');
await writeFile(file, `${Array.from({ length: springs }, (_, k) => spring(k)).join('\n')}\n`);
const survey = `node ${join(root, 'bin', 'rillwright.mjs')} survey ${file} --dem ${join(root, 'data', 'demo', 'dem.tif')} --margin 250m`;

/** Springs along the head of the demo's valley; every fifth lies outside it, to have a problem among the answers. */
function spring(k) {
  const coordinates = k % 5 === 4 ? [0, 0] : [-39.9974 + 0.0009 * (k / springs), 38.0018 - 0.0006 * (k / springs)];
  const properties = { yield: '14L/min', lift: '15m' };
  return JSON.stringify({
    type: 'Feature',
    id: `spring-${k + 1}`,
    geometry: { type: 'Point', coordinates },
    properties,
  });
}

const job = join(folder, 'job.sh');
await writeFile(
  job,
  `#!/bin/sh
part=$SLURM_ARRAY_TASK_ID/$SLURM_ARRAY_TASK_COUNT
exec ${survey} --part $part --out ${folder}/part-$SLURM_ARRAY_TASK_ID.ndjson
`,
);
// Built once here: the tasks of the array would all wait for the first of them.
await run('sh', ['-c', `${survey.replace(file, '/dev/null')}`]);
let started = performance.now();
await run('sbatch', ['--wait', '--chdir', folder, '--output', 'task-%a.log', `--array=1-${parts}`, job]);
const taken = performance.now() - started;
const files = Array.from({ length: parts }, (_, k) => join(folder, `part-${k + 1}.ndjson`));
const lines = await Promise.all(files.map(async (path) => (await readFile(path, 'utf8')).split('\n')));
const joined = Array.from({ length: springs }, (_, k) => `${lines[k % parts][Math.floor(k / parts)]}\n`).join('');
started = performance.now();
const whole = (await run('sh', ['-c', survey], { maxBuffer: 1e9 })).stdout;
const alone = performance.now() - started;
if (joined !== whole) {
  console.error('the parts put together are not the whole');
  process.exit(1);
}
const seconds = (ms) => `${(ms / 1000).toFixed(1)} s`;
console.log(
  `${springs} springs in ${parts} tasks of an array: ${seconds(taken)}; in one process: ${seconds(alone)}; the same to the byte`,
);
