import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { writePlan } from '../../src/plan/file/write-plan.ts';

const demo = readFileSync(fileURLToPath(new URL('../../data/demo/plan.geojson', import.meta.url)), 'utf8');

function withAnswer(answer: unknown) {
  const file = JSON.parse(demo);
  file.rillwright.last_answer = answer;
  return readPlan(JSON.stringify(file));
}

const answer = {
  on: '2026-05-31',
  verdict: 'measure',
  files: ['dem.tif'],
  sentences: ['It may run.', 'Level the fall.'],
};

it('a kept answer goes through the plan file unchanged, and a plan without one stays without', () => {
  const read = withAnswer(answer);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(read.value.lastAnswer).toEqual(answer);
  expect(JSON.parse(writePlan(read.value)).rillwright.last_answer).toEqual(answer);
  const bare = readPlan(demo);
  expect(bare.ok && 'lastAnswer' in bare.value).toBe(false);
  expect(bare.ok && writePlan(bare.value)).not.toContain('last_answer');
});

it.each([
  ['no day', { ...answer, on: 'yesterday' }],
  ['an unknown verdict', { ...answer, verdict: 'perhaps' }],
  ['no sentence', { ...answer, sentences: [] }],
  ['no file', { ...answer, files: [] }],
  ['a key of another program', { ...answer, more: 1 }],
])('a kept answer with %s is refused', (_, wrong) => {
  expect(withAnswer(wrong).ok).toBe(false);
});
