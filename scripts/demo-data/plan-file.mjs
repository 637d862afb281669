import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';
import { demoPlan } from './plan.mjs';

/** Loads one of the planner's own modules; Node 20 cannot run TypeScript itself. */
async function planner(path) {
  const root = fileURLToPath(new URL('../../', import.meta.url));
  return (await runnerImport(`${root}src/${path}`, { root, configFile: false, logLevel: 'error' })).module;
}

/** The text of the demo's plan file, written and read back by the planner itself. */
export async function planText() {
  const { writePlan } = await planner('plan/file/write-plan.ts');
  return writePlan(demoPlan());
}
