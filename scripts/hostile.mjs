// Goes through the whole corpora of broken plans and imports: npm run hostile. A part of them is in npm test.
import { runNode, tool } from './lib/run-program.mjs';

const plans = process.argv[2] ?? '2000';
const env = { ...process.env, HOSTILE_PLANS: plans };
const { code } = await runNode([tool('vitest/vitest.mjs'), 'run', '--project', 'unit', 'tests/hostile'], {
  show: true,
  env,
});
process.exitCode = code;
