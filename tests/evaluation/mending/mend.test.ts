import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { madeGround as fractalGround } from '../../../scripts/bench/made-ground.mjs';
import { openFileSource } from '../../../src/cli/input/node-io.ts';
import { evaluateDrawn } from '../../../src/evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../../src/evaluation/evaluate/ground-of-plan.ts';
import { mend, remedyOf } from '../../../src/evaluation/mending/mend.ts';
import { readPlan } from '../../../src/plan/file/read-plan.ts';
import { writePlan } from '../../../src/plan/file/write-plan.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { remedyWords } from '../../../src/report/findings/change-words.ts';
import { openTerrain } from '../../../src/terrain/ground/open-terrain.ts';
import { terrainOfGrids } from '../../siting/terrain-of-grids.ts';
import { gridOf } from '../../terrain/grid-in-memory.ts';
import { hill } from '../finding-cases.ts';
import { madeGround } from '../made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from '../made-plan.ts';
import { placedPlan } from './placed-plans.ts';
import { seededPlan } from './seeded-plans.ts';

const path = (name: string) => fileURLToPath(new URL(`../../../data/demo/${name}`, import.meta.url));
const PLANS = 24;
const PLACED = 8;
/** A plan in which everything holds by itself and not all of it together: it may run, and once was told no reason. */
const EACH_BY_ITSELF = 126;

type Opened = Extract<Awaited<ReturnType<typeof openTerrain>>, { kind: 'opened' }>['terrain'];

describe('a plan with its remedies taken, on the ground of the demo valley', () => {
  let demo: Plan;
  let terrain: Opened;
  let close: () => Promise<void>;

  beforeAll(async () => {
    const plan = readPlan(readFileSync(path('plan.geojson'), 'utf8'));
    if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
    demo = plan.value;
    const source = await openFileSource(path('dem.tif'));
    close = () => source.close();
    const opened = await openTerrain([source], { answers: {}, accuracy: null });
    if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
    terrain = opened.terrain;
  });

  afterAll(() => close());

  const mended = async (plan: Plan) =>
    mend({ plan, ground: await groundOfPlan(plan, terrain) }, (moved) => groundOfPlan(moved, terrain));

  test('runs, or is told why no change of these kinds can do it; and no step breaks what held', async () => {
    for (const seed of [...Array.from({ length: PLANS }, (_, i) => i + 1), EACH_BY_ITSELF]) {
      const plan = seededPlan(demo, seed);
      const { standing, steps, left } = await mended(plan);
      const { state } = standing.evaluation.answer;
      if (state !== 'runs') expect(left, `plan ${seed}`).not.toEqual([]);
      const open = standing.evaluation.findings.filter((f) => f.verdict === 'fails' && f.bears === 'running');
      for (const { code } of open)
        expect(
          left.map(({ finding }) => finding.code),
          `plan ${seed}`,
        ).toContain(code);
      for (const { after, changes } of steps) {
        expect(changes.length, `plan ${seed}`).toBeLessThanOrEqual(2);
        expect(readPlan(writePlan(after.plan)).ok, `plan ${seed}`).toBe(true);
      }
    }
  });

  test.each([
    ['gentle', { hurst: 0.9, relief: 40, seed: 3 }, { fall: [1, 6], rise: [3, 30] }],
    ['steep', { hurst: 0.7, relief: 150, seed: 5 }, { fall: [2, 12], rise: [8, 60] }],
  ] as const)('does so on %s made ground too', async (_, made, lie) => {
    const side = 512;
    const heights = fractalGround({ side, ...made });
    const grid = gridOf(side, side, (column, row) => heights[row * side + column] ?? 0);
    const on = await terrainOfGrids([grid]);
    let placed = 0;
    for (let seed = 1; seed <= PLACED; seed++) {
      const plan = await placedPlan(demo, on, seed, lie);
      if (plan === null) continue;
      placed += 1;
      const ground = await groundOfPlan(plan, on);
      const { standing, left } = await mend({ plan, ground }, (moved) => groundOfPlan(moved, on));
      if (standing.evaluation.answer.state !== 'runs') expect(left, `plan ${seed}`).not.toEqual([]);
    }
    expect(placed).toBeGreaterThan(PLACED / 2);
  });

  test('comes out the same every time, and once mended has nothing left to take', async () => {
    const plan = seededPlan(demo, 7);
    const [one, other] = [await mended(plan), await mended(plan)];
    expect(writePlan(one.standing.plan)).toBe(writePlan(other.standing.plan));
    const again = await mended(one.standing.plan);
    expect(again.steps.filter(({ finding }) => finding.bears === 'running')).toEqual([]);
  });
});

describe('the remedy of one finding', () => {
  const at = (
    plan: Plan,
    made: { heights?: object; bumps?: Record<string, (share: number) => number | null> } = {},
  ) => {
    const ground = madeGround(plan, {
      heights: { ...workingHeights, ...made.heights },
      lengths: workingLengths,
      ...(made.bumps && { bumps: made.bumps }),
    });
    return { plan, ground, evaluation: evaluateDrawn(plan, ground, { count: 256, seed: 1 }) };
  };
  const noMove = () => Promise.reject(new Error('found a move, expected none'));

  test('a siphon that takes the back pressure away is mended by its vent, and by nothing else', async () => {
    const standing = at(
      {
        ...workingPlan,
        points: workingPlan.points.filter(({ role }) => role !== 'trough'),
        routes: workingPlan.routes.filter(({ role }) => role !== 'gravity'),
      },
      { heights: { tank: 103.4 }, bumps: { delivery: hill(100, 103.4, 109) } },
    );
    const finding = standing.evaluation.findings.find(({ code }) => code === 'back-pressure');
    expect(finding?.verdict).not.toBe('holds');
    if (finding === undefined) return;
    const remedy = await remedyOf(standing, finding, noMove);
    expect(remedy?.changes.map(({ kind }) => kind)).toEqual(['vent']);
    expect(remedy?.after.evaluation.findings.find(({ code }) => code === 'back-pressure')?.verdict).toBe('holds');
  });

  test('what is said to make a standpipe tall enough is enough after it was rounded', async () => {
    const standing = at(workingPlan, { heights: { standpipe: 102.3 } });
    const finding = standing.evaluation.findings.find(({ code }) => code === 'standpipe-low');
    if (finding === undefined) throw new Error('found no low standpipe, expected one');
    const remedy = await remedyOf(standing, finding, noMove);
    if (remedy === null) throw new Error('found no remedy, expected a taller standpipe');
    const said = Number(
      /([\d.]+)\s*m taller/.exec(remedyWords(remedy, standing.plan, 'metric').replace(/\u202f/g, ' '))?.[1],
    );
    const point = standing.plan.points.find(({ role }) => role === 'standpipe');
    const top = point?.role === 'standpipe' ? point.topHeight + said : Number.NaN;
    const taller = {
      ...standing.plan,
      points: standing.plan.points.map((p) => (p.role === 'standpipe' ? { ...p, topHeight: top } : p)),
    };
    const after = at(taller, { heights: { standpipe: 102.3 } }).evaluation.findings;
    expect(after.find(({ code }) => code === 'standpipe-low')?.verdict).toBe('holds');
  });
});
