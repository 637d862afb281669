import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { suggestChoices } from '../../src/plan/exchange/import-choices.ts';
import { importInto } from '../../src/plan/exchange/import-into.ts';
import { readImport } from '../../src/plan/exchange/read-import.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';
import { runCommand } from '../cli/run-command.ts';
import { samplePlan } from '../plan/sample-plan.ts';
import { brokenImports } from './broken-imports.ts';
import { brokenPlans } from './broken-plans.ts';

/** How much of the corpora is gone through: a part at every run of the tests, the whole by `npm run hostile`. */
const PLANS = Number(process.env.HOSTILE_PLANS ?? 100);
const LONGEST_MS = 3_600_000;
const SEED = 20_261_129;

/** An answer in one line, or a plan with its numbers; anything else is a fault. */
async function faultOf(text: string, dem: Uint8Array): Promise<string | null> {
  const args = ['assess', 'plan', '--dem', 'dem.tif', '--json'];
  const { code, out, err } = await runCommand(args, { plan: text }, { 'dem.tif': dem });
  if (code === 2) {
    if (err.trimEnd().split('\n').length !== 1) return `more than one line: ${err.slice(0, 200)}`;
    return err.length > 20_000 ? `a line of ${err.length} letters` : null;
  }
  if (code !== 0) return `ended with ${code}: ${err.slice(0, 400)}`;
  const { verdict: _, ...answer } = JSON.parse(out);
  return Object.keys(answer).length > 0 ? null : 'an empty answer';
}

describe('the command line', () => {
  const dem = new Uint8Array(readFileSync('data/demo/dem.tif'));

  test(
    `answers each of ${PLANS} broken plans, or refuses it in one line`,
    async () => {
      const plans = brokenPlans(PLANS, SEED);
      expect(plans).toHaveLength(PLANS);
      const faults: string[] = [];
      let refused = 0;
      for (const { what, text } of plans) {
        const fault = await faultOf(text, dem);
        if (fault !== null) faults.push(`${what}: ${fault}`);
        if (!readPlan(text).ok) refused += 1;
      }
      expect(faults).toEqual([]);
      // Some of what is changed leaves a plan, most does not.
      expect(refused).toBeGreaterThan(PLANS * 0.4);
      expect(refused).toBeLessThan(PLANS);
    },
    LONGEST_MS,
  );

  test(
    'lists what is in each of 26 broken imports, or refuses it in one line',
    async () => {
      const files = brokenImports(SEED);
      expect(files).toHaveLength(26);
      const faults: string[] = [];
      for (const { what, bytes } of files) {
        const { code, err } = await runCommand(['import', 'file', '--json'], {}, { file: bytes });
        if (code === 1 || (code === 2 && err.trimEnd().split('\n').length !== 1))
          faults.push(`${what}: ${code} ${err}`);
      }
      expect(faults).toEqual([]);
    },
    LONGEST_MS,
  );
});

test('what is taken of a broken import is a plan, or says what is wrong', () => {
  for (const { what, bytes } of brokenImports(SEED)) {
    const read = readImport({ name: what, bytes });
    if (!read.ok) {
      expect(read.problems.length, what).toBeGreaterThan(0);
      continue;
    }
    const made = importInto(samplePlan, read.value, suggestChoices(samplePlan, read.value));
    if (made.ok) expect(readPlan(writePlan(made.value.plan)), what).toEqual({ ok: true, value: made.value.plan });
    else expect(made.problems.length, what).toBeGreaterThan(0);
  }
});

test('the corpora are the same for the same seed, and others for another', () => {
  const plans = (seed: number) =>
    brokenPlans(40, seed)
      .map(({ text }) => text)
      .join('\n');
  const imports = (seed: number) => brokenImports(seed).map(({ bytes }) => Buffer.from(bytes));
  const first = plans(3);
  expect(plans(3) === first).toBe(true);
  expect(plans(4) === first).toBe(false);
  const again = imports(3);
  expect(imports(3).every((bytes, k) => again[k] !== undefined && bytes.equals(again[k]))).toBe(true);
});
