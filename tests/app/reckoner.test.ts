import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { PATIENCE, Reckoner } from '../../src/app/client/evaluator.ts';
import type { GroundedPlan } from '../../src/app/client/ground-feed.ts';
import { evaluate, type Ground } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { lidar, madeGround } from '../evaluation/made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from '../evaluation/made-plan.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths, accuracy: lidar });
const about = {
  files: ['made.tif'],
  crs: 'EPSG:32624',
  cell: { width: 1, height: 1 },
  size: { columns: 10, rows: 10 },
  outline: [],
  verticalUnit: 'metre',
  verticalDatum: null,
  accuracy: lidar,
  notes: [],
} as const;

/** A terrain whose draws are done when the test says so. */
class SlowDraws {
  readonly about = about;
  readonly #waiting: { done: (evaluation: Evaluation) => void; signal: AbortSignal }[] = [];

  reckon(_plan: Plan, _ground: Ground, signal: AbortSignal): Promise<Evaluation> {
    return new Promise((done) => this.#waiting.push({ done, signal }));
  }

  /** Lets the oldest draws end, and what hangs on them run. */
  async finish(evaluation: Evaluation): Promise<void> {
    this.#waiting.shift()?.done(evaluation);
    await vi.advanceTimersByTimeAsync(0);
  }

  get stopped(): readonly boolean[] {
    return this.#waiting.map(({ signal }) => signal.aborted);
  }
}

const drawn: Evaluation = evaluate(workingPlan, ground);
/** Another plan by each name: the water is as warm as the name's letter says. */
const named = (name: string): GroundedPlan => ({
  plan: { ...workingPlan, name, waterTemperature: name.charCodeAt(0) % 20 },
  ground,
});

function reckoning() {
  const terrain = new SlowDraws();
  const shown: string[] = [];
  const reckoner = new Reckoner(terrain, ({ grounded, evaluation }) => {
    shown.push(`${grounded.plan.name} ${evaluation === drawn ? 'drawn' : 'to first order'}`);
  });
  return { terrain, shown, reckoner };
}

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

it('shows a plan that is being dragged at once and asks for no draws', () => {
  const { terrain, shown, reckoner } = reckoning();
  void reckoner.reckon(named('a'), { dragging: true });
  expect(shown).toEqual(['a to first order']);
  expect(terrain.stopped).toEqual([]);
});

it('shows quick draws alone, so that numbers do not change twice', async () => {
  const { terrain, shown, reckoner } = reckoning();
  void reckoner.reckon(named('a'), { dragging: false });
  await vi.advanceTimersByTimeAsync(PATIENCE - 1);
  await terrain.finish(drawn);
  await vi.advanceTimersByTimeAsync(10 * PATIENCE);
  expect(shown).toEqual(['a drawn']);
});

it('does not keep the page waiting for slow draws', async () => {
  const { terrain, shown, reckoner } = reckoning();
  void reckoner.reckon(named('a'), { dragging: false });
  await vi.advanceTimersByTimeAsync(PATIENCE);
  expect(shown).toEqual(['a to first order']);
  await terrain.finish(drawn);
  expect(shown).toEqual(['a to first order', 'a drawn']);
});

it('shows every step of a key held down, and the draws of the last one only', async () => {
  const { terrain, shown, reckoner } = reckoning();
  for (const name of ['a', 'b', 'c']) {
    void reckoner.reckon(named(name), { dragging: false });
    await vi.advanceTimersByTimeAsync(PATIENCE / 2);
  }
  expect(terrain.stopped).toEqual([true, true, false]);
  for (let each = 0; each < 3; each += 1) await terrain.finish(drawn);
  expect(shown).toEqual(['b to first order', 'c to first order', 'c drawn']);
});

it('shows nothing more once it is closed', async () => {
  const { terrain, shown, reckoner } = reckoning();
  void reckoner.reckon(named('a'), { dragging: false });
  reckoner.close();
  await vi.advanceTimersByTimeAsync(2 * PATIENCE);
  await terrain.finish(drawn);
  expect(shown).toEqual([]);
});

it('asks nothing anew when only names change: of the plan, of a point, of a line', async () => {
  const { terrain, shown, reckoner } = reckoning();
  void reckoner.reckon(named('a'), { dragging: false });
  await terrain.finish(drawn);
  const { plan } = named('a');
  const renamed: Plan = {
    ...plan,
    name: 'z',
    points: plan.points.map((point) => ({ ...point, name: `new ${point.name}` })),
    routes: plan.routes.map((route) => ({ ...route, note: 'laid by hand' })),
  };
  await reckoner.reckon({ plan: renamed, ground }, { dragging: false });
  expect(shown).toEqual(['a drawn', 'z drawn']);
  expect(terrain.stopped).toEqual([]);
  void reckoner.reckon({ plan: { ...renamed, confidence: 0.8 }, ground }, { dragging: false });
  expect(terrain.stopped).toEqual([false]);
});
