import { describe, expect, it } from 'vitest';
import { type GroundedPlan, GroundFeed } from '../../src/app/client/ground-feed.ts';
import { movePoint } from '../../src/plan/edits/edit-points.ts';
import { changeSettings } from '../../src/plan/edits/edit-settings.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import type { GroundLine, GroundPoint, Terrain } from '../../src/terrain/grid/ground.ts';
import { groundMade } from '../report/ground-made.ts';
import { made, planMade } from '../report/plan-made.ts';

const plan = planMade(
  ['source', 'pump', 'tank'],
  [
    ['drive', 'source-1', 'pump-1'],
    ['delivery', 'pump-1', 'tank-1'],
  ],
);
const moved = (shift: number): Plan => made(movePoint(plan, 'tank-1', { lon: -29.9 + shift, lat: 38 }));

/** A terrain that answers when it is told to, and counts what it was asked. */
class SlowTerrain {
  readonly asked = { points: 0, lines: 0 };
  readonly #waiting: (() => void)[] = [];
  failing = false;

  groundAt(positions: readonly { lon: number }[]): Promise<readonly GroundPoint[]> {
    this.asked.points += positions.length;
    return this.#later(() => positions.map(({ lon }) => ({ ground: lon, slope: 0, smoothing: 0 })));
  }

  groundAlong(): Promise<GroundLine> {
    this.asked.lines += 1;
    return this.#later(() => groundMade(10, 1, () => 5));
  }

  #later<T>(answer: () => T): Promise<T> {
    return new Promise((resolve, reject) => {
      this.#waiting.push(() => (this.failing ? reject(new Error('the file is gone')) : resolve(answer())));
    });
  }

  async answer(): Promise<void> {
    for (const each of this.#waiting.splice(0)) each();
    for (let turn = 0; turn < 8; turn += 1) await Promise.resolve();
    await new Promise((resolve) => setTimeout(resolve));
  }
}

function feedOn(terrain: SlowTerrain) {
  const heard: { plans: GroundedPlan[]; busy: boolean[]; failures: unknown[] } = { plans: [], busy: [], failures: [] };
  const asTerrain: Pick<Terrain, 'groundAt' | 'groundAlong'> = terrain;
  const feed = new GroundFeed(asTerrain, {
    onGround: (next) => heard.plans.push(next),
    onBusy: (busy) => heard.busy.push(busy),
    onFailed: (error) => heard.failures.push(error),
  });
  return { feed, heard };
}

describe('bringing a plan together with its ground', () => {
  it('asks for every point and route once, and publishes the plan with all of it', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    feed.follow(plan);
    expect(heard.plans).toHaveLength(0);
    await terrain.answer();
    expect(terrain.asked).toEqual({ points: 3, lines: 2 });
    expect(heard.plans).toHaveLength(1);
    expect([...(heard.plans[0]?.ground.points.keys() ?? [])]).toEqual(['source-1', 'pump-1', 'tank-1']);
    expect([...(heard.plans[0]?.ground.lines.keys() ?? [])]).toEqual(['drive-1', 'delivery-1']);
    expect(heard.busy).toEqual([true, false]);
  });

  it('asks nothing when only a setting changed, and publishes at once', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    feed.follow(plan);
    await terrain.answer();
    const asked = { ...terrain.asked };
    const warmer = made(changeSettings(plan, { waterTemperature: 15 }));
    feed.follow(warmer);
    expect(terrain.asked).toEqual(asked);
    expect(heard.plans.at(-1)?.plan).toBe(warmer);
  });

  it('asks only for what moved', async () => {
    const terrain = new SlowTerrain();
    const { feed } = feedOn(terrain);
    feed.follow(plan);
    await terrain.answer();
    feed.follow(moved(0.001));
    expect(terrain.asked).toEqual({ points: 4, lines: 3 });
    await terrain.answer();
    feed.follow(plan);
    expect(terrain.asked).toEqual({ points: 4, lines: 3 });
  });

  it('drops the plans between while an answer is under way, and ends with the newest', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    const drags = [0.001, 0.002, 0.003, 0.004].map(moved);
    for (const each of drags) feed.follow(each);
    await terrain.answer();
    await terrain.answer();
    expect(heard.plans.map(({ plan: each }) => each)).toEqual([drags[0], drags[3]]);
    expect(terrain.asked.lines).toBe(3);
  });

  it('never publishes an older plan after a newer one', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    feed.follow(plan);
    await terrain.answer();
    feed.follow(moved(0.001));
    feed.follow(plan);
    await terrain.answer();
    expect(heard.plans.at(-1)?.plan).toBe(plan);
    expect(heard.plans).toHaveLength(2);
  });

  it('says when the terrain fails, keeps what it published, and works on afterwards', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    feed.follow(plan);
    await terrain.answer();
    terrain.failing = true;
    feed.follow(moved(0.001));
    await terrain.answer();
    expect(heard.failures.map(String)).toEqual(['Error: the file is gone']);
    terrain.failing = false;
    feed.follow(moved(0.002));
    await terrain.answer();
    expect(heard.plans).toHaveLength(2);
    expect(heard.busy.at(-1)).toBe(false);
  });

  it('publishes nothing once it is closed', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    feed.follow(plan);
    feed.close();
    await terrain.answer();
    expect(heard.plans).toHaveLength(0);
    expect(heard.failures).toHaveLength(0);
  });

  it('still has the ground of points that stayed through a drag of five hundred places', async () => {
    const terrain = new SlowTerrain();
    const { feed, heard } = feedOn(terrain);
    for (let place = 0; place < 500; place += 1) {
      feed.follow(moved(place / 1e6));
      await terrain.answer();
    }
    expect(heard.plans).toHaveLength(500);
    expect(terrain.asked).toEqual({ points: 502, lines: 501 });
  });
});
