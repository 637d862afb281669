// Types of every compiler world, then lint and format. Ends with one line a check; fails when one of them does.
import { readdir, writeFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { root, runNode, tool } from './lib/run-program.mjs';

const { values } = parseArgs({ options: { json: { type: 'string' } } });

async function worlds() {
  const names = await readdir(root);
  return names.filter((name) => /^tsconfig\.(?!base\.)[a-z]+\.json$/.test(name)).sort();
}

async function outcome(name, args) {
  const { code, output } = await runNode(args);
  if (code !== 0) console.log(`\n— ${name} —\n${shortened(output)}\n`);
  return { name, passed: code === 0 };
}

/** More lines than this of one check say nothing new. */
const mostLines = 100;

function shortened(output) {
  const lines = output.trimEnd().split('\n');
  const more = lines.length - mostLines;
  return more <= 0 ? lines.join('\n') : `${lines.slice(0, mostLines).join('\n')}\n… ${more} more lines`;
}

const outcomes = [];
for (const file of await worlds()) {
  outcomes.push(await outcome(`types ${file}`, [tool('typescript/bin/tsc'), '-p', file]));
}
outcomes.push(
  await outcome('lint and format', [
    tool('@biomejs/biome/bin/biome'),
    'check',
    '.',
    '--diagnostic-level=error',
    '--max-diagnostics=40',
  ]),
);

for (const { name, passed } of outcomes) console.log(`${passed ? 'ok  ' : 'FAIL'}  ${name}`);
if (values.json !== undefined) await writeFile(values.json, JSON.stringify(outcomes));
process.exitCode = outcomes.every(({ passed }) => passed) ? 0 : 1;
