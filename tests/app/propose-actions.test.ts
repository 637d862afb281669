import { beforeEach, describe, expect, it } from 'vitest';
import { edit, placePoint } from '../../src/app/actions/edit-actions.ts';
import { newPlan } from '../../src/app/actions/plan-file-actions.ts';
import {
  layAnyway,
  layProposal,
  leaveProposal,
  proposeLine,
  showProposal,
} from '../../src/app/actions/propose-actions.ts';
import type { OpenedTerrain } from '../../src/app/client/terrain-client.ts';
import { lineSearch } from '../../src/app/state/jobs-store.ts';
import { spot } from '../../src/app/state/spot-store.ts';
import { history, plan, terrain } from '../../src/app/state/store.ts';
import { movePoint } from '../../src/plan/edits/edit-points.ts';
import { proposableLines } from '../../src/report/tables/proposable-lines.ts';
import type { ProposedRoute, RouteProposal } from '../../src/siting/lines/route-proposal.ts';

const pump = { lon: -30, lat: 38 };
const tank = { lon: -29.999, lat: 38 };
const bend = { lon: -29.9995, lat: 38.0002 };
const ground = { file: 'made.tif', coarser: 1, cell: { width: 1, height: 1 } };

const by = (vertices: ProposedRoute['vertices']): ProposedRoute => ({
  vertices,
  length: 90,
  horizontal: 88,
  highest: 120,
  governingLift: 20,
  cut: null,
});

/** A terrain whose search ends as the test says. */
function answering(answer: (signal: AbortSignal) => Promise<RouteProposal>): OpenedTerrain {
  const never = () => Promise.reject(new Error('not asked for in this test'));
  return {
    key: 'made',
    get about(): never {
      throw new Error('not asked for in this test');
    },
    groundAlong: never,
    groundAt: never,
    reckon: never,
    compare: never,
    diagnose: never,
    beatCourse: never,
    reliefTile: never,
    slopeTile: never,
    contourTile: never,
    areaContours: never,
    reachMap: never,
    reachTile: never,
    reachAt: never,
    reachLine: never,
    siteSystems: never,
    takeHeights: never,
    proposeRoute: (_, { signal }) => answer(signal),
    close: () => undefined,
  };
}

const round: RouteProposal = { kind: 'route', ...by([pump, bend, tank]), other: by([pump, tank]), ground };

async function propose(): Promise<void> {
  const [line] = proposableLines(plan.value);
  if (line === undefined) throw new Error('lines to propose: found none, expected a delivery line');
  await proposeLine(line);
}

beforeEach(() => {
  newPlan();
  leaveProposal();
  placePoint('pump', pump);
  placePoint('tank', tank);
  terrain.value = answering(() => Promise.resolve(round));
});

describe('a line that is proposed', () => {
  it('is shown with the plan and is no step until it is laid', async () => {
    const steps = history.value.past.length;
    await propose();
    expect(plan.value.routes.map(({ vertices }) => vertices.length)).toEqual([3]);
    expect(history.value.present.routes).toEqual([]);
    expect(history.value.past.length).toBe(steps);
  });

  it('can be looked at beside the other one', async () => {
    await propose();
    showProposal(1);
    expect(plan.value.routes.map(({ vertices }) => vertices.length)).toEqual([2]);
  });

  it('becomes one step when it is laid', async () => {
    await propose();
    layProposal();
    expect(history.value.present.routes[0]?.vertices[1]?.lat).toBeCloseTo(bend.lat, 7);
    expect(history.value.past.at(-1)?.label.code).toBe('add-route');
    expect(lineSearch.value).toBeNull();
  });

  it('leaves the plan as it was when it is left', async () => {
    const before = history.value.present;
    await propose();
    leaveProposal();
    expect(plan.value).toBe(before);
  });

  it('is let go when one of its ends is moved meanwhile', async () => {
    await propose();
    edit((p) => movePoint(p, 'tank-1', { lon: -29.998, lat: 38 }));
    expect(lineSearch.value).toBeNull();
    layProposal();
    expect(history.value.present.routes).toEqual([]);
  });
});

describe('a search for a line', () => {
  it('is told to stop and leaves nothing behind', async () => {
    let stopped = false;
    terrain.value = answering(
      (signal) =>
        new Promise((_, reject) => {
          signal.addEventListener('abort', () => {
            stopped = true;
            reject(new Error('stopped'));
          });
        }),
    );
    const looking = propose();
    expect(lineSearch.value?.kind).toBe('looking');
    leaveProposal();
    await looking;
    expect(stopped).toBe(true);
    expect(lineSearch.value).toBeNull();
  });

  it('that fails says why', async () => {
    terrain.value = answering(() => Promise.reject(new Error('the file is gone')));
    await propose();
    expect(lineSearch.value).toMatchObject({ kind: 'failed', reason: 'the file is gone' });
  });

  it('that finds the ground too high says where', async () => {
    terrain.value = answering(() => Promise.resolve({ kind: 'blocked', at: bend, excess: 1, anyway: null, ground }));
    await propose();
    expect(lineSearch.value).toMatchObject({ kind: 'none', why: { at: bend, excess: 1 }, anyway: null });
    expect(spot.value).toEqual({ position: bend });
  });

  it('that is refused shows the best line in the trench it needs, and lays it as one step', async () => {
    const anyway = { ...by([pump, bend, tank]), cut: { below: 0.92, above: 0 } };
    terrain.value = answering(() => Promise.resolve({ kind: 'blocked', at: bend, excess: 0.62, anyway, ground }));
    const before = history.value;
    await propose();
    expect(lineSearch.value).toMatchObject({ kind: 'none', anyway: { trench: expect.closeTo(0.95, 9) } });
    // Shown, but not a step yet.
    expect(plan.value.routes.at(-1)).toMatchObject({ trenchDepth: expect.closeTo(0.95, 9) });
    expect(history.value.past).toEqual(before.past);
    layAnyway();
    expect(lineSearch.value).toBeNull();
    expect(plan.value.routes.at(-1)?.vertices[1]).toEqual(bend);
    expect(history.value.past.length).toBe(before.past.length + 1);
  });

  it('that would need a trench nobody digs by hand is only told', async () => {
    const anyway = { ...by([pump, bend, tank]), cut: { below: 2.4, above: 0 } };
    terrain.value = answering(() => Promise.resolve({ kind: 'blocked', at: bend, excess: 2.1, anyway, ground }));
    const before = plan.value;
    await propose();
    expect(lineSearch.value).toMatchObject({ kind: 'none', anyway: null });
    expect(plan.value).toBe(before);
  });
});
