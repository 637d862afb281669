import { effect } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { comparedPair, comparison, laidOver } from '../../../src/app/actions/comparison.ts';
import { compareWith, followComparison, stopComparison } from '../../../src/app/actions/comparison-actions.ts';
import { copyAsAlternative, turnTo } from '../../../src/app/actions/desk-actions.ts';
import { edit } from '../../../src/app/actions/edit-actions.ts';
import { showJob } from '../../../src/app/actions/jobs-actions.ts';
import { newPlan } from '../../../src/app/actions/plan-file-actions.ts';
import { showPanel } from '../../../src/app/actions/view-actions.ts';
import type { OpenedTerrain } from '../../../src/app/client/terrain-client.ts';
import { desk, deskOfStore, sheets } from '../../../src/app/state/alternatives.ts';
import { evaluation, grounded, history, terrain } from '../../../src/app/state/store.ts';
import { evaluate, type Ground } from '../../../src/evaluation/evaluate/evaluate.ts';
import { changeSettings } from '../../../src/plan/edits/edit-settings.ts';
import { startHistory } from '../../../src/plan/edits/history.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { lidar, madeGround } from '../../evaluation/made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from '../../evaluation/made-plan.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths, accuracy: lidar });
const about: OpenedTerrain['about'] = {
  files: ['made.tif'],
  crs: 'EPSG:32624',
  cell: { width: 1, height: 1 },
  size: { columns: 10, rows: 10 },
  outline: [],
  verticalUnit: 'metre',
  verticalDatum: null,
  accuracy: lidar,
  notes: [],
};

/** A terrain with the ground of the plan it was made for, which counts what it is asked and fails when told to. */
class CountingTerrain implements OpenedTerrain {
  readonly key = 'made';
  readonly about = about;
  readonly reckoned: string[] = [];
  read = 0;
  failing = false;

  groundAt: OpenedTerrain['groundAt'] = async (positions) => {
    if (this.failing) throw new Error('the file is gone');
    this.read += 1;
    return positions.map((position) => {
      const { id } = this.#found(
        workingPlan.points,
        ({ position: { lon, lat } }) => lon === position.lon && lat === position.lat,
      );
      return this.#found([...ground.points], ([point]) => point === id)[1];
    });
  };

  groundAlong: OpenedTerrain['groundAlong'] = async (line) => {
    const { id } = this.#found(workingPlan.routes, ({ vertices }) => JSON.stringify(vertices) === JSON.stringify(line));
    return this.#found([...ground.lines], ([route]) => route === id)[1];
  };

  reckon = async (plan: Plan, on: Ground) => {
    this.reckoned.push(plan.name);
    return evaluate(plan, on);
  };

  #found<T>(all: readonly T[], is: (one: T) => boolean): T {
    const one = all.find(is);
    if (one === undefined) throw new Error('found no such place, expected one of the made plan');
    return one;
  }

  reliefTile = this.#never;
  slopeTile = this.#never;
  contourTile = this.#never;
  areaContours = this.#never;
  compare = this.#never;
  proposeRoute = this.#never;
  diagnose = this.#never;
  beatCourse = this.#never;
  reachMap = this.#never;
  reachTile = this.#never;
  reachAt = this.#never;
  reachLine = this.#never;
  siteSystems = this.#never;
  takeHeights = this.#never;
  close = () => undefined;

  get #never() {
    return () => Promise.reject(new Error('not asked for in this test'));
  }
}

/** What the page shows of the plan on the map once it is reckoned. */
function onTheMap(): void {
  const { present } = history.value;
  grounded.value = { plan: present, ground };
  evaluation.value = evaluate(present, ground);
}

async function settled(): Promise<void> {
  for (let turn = 0; turn < 20; turn++) await Promise.resolve();
}

let open: CountingTerrain;
let stop: () => void;

beforeEach(() => {
  newPlan();
  history.value = startHistory(workingPlan);
  desk.value = deskOfStore();
  open = new CountingTerrain();
  terrain.value = open;
  showPanel('jobs');
  showJob('alternatives');
  stop = effect(followComparison);
});

afterEach(() => {
  stop();
  terrain.value = null;
  grounded.value = null;
  evaluation.value = null;
});

describe('comparing two plans', () => {
  it('asks for nothing while there is only one', () => {
    expect(comparison.value).toEqual({ kind: 'none' });
    expect(open.read).toBe(0);
  });

  it('reads the ground under the other, then draws its numbers, and keeps the order of the desk', async () => {
    const seen: string[] = [];
    const unwatch = effect(() => {
      const { value } = comparison;
      seen.push(value.kind === 'reckoning' ? value.step : value.kind);
    });
    copyAsAlternative();
    onTheMap();
    await settled();
    unwatch();
    expect(seen).toEqual(['none', 'ground', 'numbers', 'known']);
    expect(open.reckoned).toEqual(['invented']);
    expect(comparedPair.value?.one.plan.name).toBe('invented');
    expect(comparedPair.value?.other.plan.name).toBe('Alternative 2 of invented');

    const [first] = sheets.value;
    turnTo(first?.id ?? '');
    onTheMap();
    await settled();
    // Now the copy is the one that is laid over, and the columns stand as they stood.
    expect(laidOver.value?.grounded.plan.name).toBe('Alternative 2 of invented');
    expect(comparedPair.value?.one.plan.name).toBe('invented');
  });

  it('does not reckon the other again for a change of the plan on the map', async () => {
    copyAsAlternative();
    await settled();
    edit((plan) => changeSettings(plan, { confidence: 0.95 }));
    await settled();
    expect(open.reckoned).toEqual(['invented']);
    expect(comparison.value.kind).toBe('known');
  });

  it('lets go of it while other tables are looked at, and has it again without a question', async () => {
    copyAsAlternative();
    await settled();
    showJob('tanks');
    expect(laidOver.value).toBeNull();
    showJob('alternatives');
    expect(comparison.value.kind).toBe('known');
    expect(open.reckoned).toHaveLength(1);
  });

  it('can be stopped, and asked for again', async () => {
    copyAsAlternative();
    stopComparison();
    await settled();
    expect(comparison.value).toEqual({ kind: 'stopped' });
    expect(open.reckoned).toEqual([]);
    followComparison();
    await settled();
    expect(comparison.value.kind).toBe('known');
  });

  it('says why it failed, and can be tried again', async () => {
    open.failing = true;
    copyAsAlternative();
    await settled();
    expect(comparison.value).toEqual({ kind: 'failed', reason: 'the file is gone' });
    open.failing = false;
    followComparison();
    await settled();
    expect(comparison.value.kind).toBe('known');
  });

  it('is with the sheet that was chosen', async () => {
    copyAsAlternative();
    copyAsAlternative();
    await settled();
    expect(laidOver.value?.grounded.plan.name).toBe('invented');
    compareWith(sheets.value[1]?.id ?? '');
    await settled();
    expect(laidOver.value?.grounded.plan.name).toBe('Alternative 2 of invented');
  });
});
