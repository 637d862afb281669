import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openFileSource } from '../../../src/cli/input/node-io.ts';
import { evaluateAtRest } from '../../../src/evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../../src/evaluation/evaluate/ground-of-plan.ts';
import { readPlan } from '../../../src/plan/file/read-plan.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import type { FigureNode } from '../../../src/report/figure/figure-node.ts';
import type { PrintSource } from '../../../src/report/print/print-source.ts';
import { openTerrain } from '../../../src/terrain/ground/open-terrain.ts';

const path = (name: string) => fileURLToPath(new URL(`../../../data/demo/${name}`, import.meta.url));

export function demoPlan(): Plan {
  const plan = readPlan(readFileSync(path('plan.geojson'), 'utf8'));
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  return plan.value;
}

/** The invented demo on its ground, or a change of it, ready to print. */
export async function demoSource(change: (plan: Plan) => Plan = (plan) => plan): Promise<PrintSource> {
  const plan = change(demoPlan());
  const file = await openFileSource(path('dem.tif'));
  const opened = await openTerrain([file], { answers: {}, accuracy: plan.terrain?.accuracy ?? null });
  if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
  const ground = await groundOfPlan(plan, opened.terrain);
  await file.close();
  const site = { ground, about: opened.terrain.about, evaluation: evaluateAtRest(plan, ground) };
  return sourceOf(plan, site);
}

/** A plan ready to print, on known ground or none. */
export function sourceOf(plan: Plan, site: PrintSource['site'] = null): PrintSource {
  const program = { name: 'Rillwright', version: '9.8.7' };
  return { plan, units: plan.units, site, contours: [], program, date: '2026-05-31' };
}

export function all(node: FigureNode, wanted: (node: FigureNode) => boolean): FigureNode[] {
  const below = node.children.flatMap((child) => (typeof child === 'string' ? [] : all(child, wanted)));
  return wanted(node) ? [node, ...below] : below;
}

export const byClass = (name: string) => (node: FigureNode) => (node.attributes.class ?? '').split(' ').includes(name);

/** Everything that can be read in an element, in order. */
export function wordsOf(node: FigureNode): string {
  return node.children.map((child) => (typeof child === 'string' ? child : wordsOf(child))).join(' ');
}
