import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { openFileSource } from '../../src/cli/input/node-io.ts';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { findingWords } from '../../src/report/findings/finding-words.ts';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';

const path = (name: string) => fileURLToPath(new URL(`../../data/demo/${name}`, import.meta.url));

/** What the demo says: it has to show the tool's point to whoever opens it first. */
describe('the demo plan on the demo valley', () => {
  let demo: Evaluation;

  beforeAll(async () => {
    const plan = readPlan(readFileSync(path('plan.geojson'), 'utf8'));
    if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
    const source = await openFileSource(path('dem.tif'));
    const accuracy = plan.value.terrain?.accuracy ?? null;
    const opened = await openTerrain([source], { answers: {}, accuracy });
    if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
    demo = evaluate(plan.value, await groundOfPlan(plan.value, opened.terrain));
    await source.close();
  });

  const tank = (id: string) => demo.tanks.find((each) => each.id === id);

  it('has one tank that works, one that the ground rules out and one that waits for a measurement', () => {
    expect(tank('tank-shoulder')?.verdict).toBe('holds');
    expect(tank('tank-behind-knoll')?.verdict).toBe('fails');
    expect(tank('tank-spur')?.verdict).toBe('measure');
  });

  it('rules the tank behind the knoll out by the knoll, not by its own height', () => {
    const lift = tank('tank-behind-knoll')?.lift.likely ?? Number.NaN;
    const spurLift = tank('tank-spur')?.lift.likely ?? Number.NaN;
    expect(lift).toBeLessThan(spurLift);
    const line = demo.lines.find(({ id }) => id === 'delivery-behind-knoll');
    expect((line?.highest ?? 0) - (line?.end ?? 0)).toBeGreaterThan(15);
  });

  it('sends people out with a bucket first, since the spring carries most of the doubt and costs the least trouble', () => {
    expect(demo.measureFirst[0]?.quantity).toBe('source-yield');
  });

  it('has a trough that lies below the spring and needs no pump, and one that does not', () => {
    const below = (id: string) => demo.troughs.find((each) => each.id === id)?.belowSource?.low ?? Number.NaN;
    expect(below('trough-meadow')).toBeGreaterThan(2);
    expect(below('trough-gap')).toBeLessThan(0);
  });

  it('asks for little, and for nothing twice', () => {
    const open = demo.findings.filter(({ verdict }) => verdict !== 'holds');
    const remedies = open.map((finding) => findingWords(finding, { units: 'metric', nameOf: (id) => id }).remedy);
    expect(open.map(({ about }) => about).toSorted()).toEqual(['tank-behind-knoll', 'tank-spur']);
    expect(new Set(remedies.map((remedy) => remedy.replace(/[\d.,]+/g, '#'))).size).toBe(open.length);
  });

  it('has nothing wrong with it but the tank behind the knoll', () => {
    const failed = demo.findings.filter(({ verdict }) => verdict === 'fails').map(({ about }) => about);
    expect([...new Set(failed)]).toEqual(['tank-behind-knoll']);
  });
});
