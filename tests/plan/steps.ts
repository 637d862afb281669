import fc from 'fast-check';
import type { Position } from '../../src/geodesy/position.ts';
import { routeEnds } from '../../src/plan/check/check-routes.ts';
import type { Edit } from '../../src/plan/edits/edit.ts';
import {
  addPoint,
  changePoint,
  movePoint,
  removePoint,
  renamePoint,
  setStanding,
} from '../../src/plan/edits/edit-points.ts';
import {
  addRoute,
  changeRoute,
  drawRoute,
  removeRoute,
  setFittings,
  setRoutePipe,
} from '../../src/plan/edits/edit-routes.ts';
import { changeSettings } from '../../src/plan/edits/edit-settings.ts';
import { deleteVertex, insertVertex, moveVertex } from '../../src/plan/edits/edit-vertices.ts';
import {
  removeMeasurement,
  setHerd,
  setMeasurement,
  setPump,
  setYieldReadings,
} from '../../src/plan/edits/edit-water.ts';
import type { Plan, PlanPoint, PlanRoute, PointRole } from '../../src/plan/model/plan.ts';

/** One thing a user might do to whatever plan there is; it may be refused. */
export type Step = (plan: Plan) => Edit;

const position: fc.Arbitrary<Position> = fc.record({
  lon: fc.double({ min: -180, max: 180, noNaN: true }),
  lat: fc.double({ min: -90, max: 90, noNaN: true }),
});
const line = fc.array(position, { maxLength: 5 });
const pick = fc.nat({ max: 1000 });
const height = fc.double({ min: -100, max: 100, noNaN: true });
const flow = fc.double({ min: 1e-7, max: 0.1, noNaN: true });
const share = fc.double({ min: 0.001, max: 1, noNaN: true });
const text = fc.string({ maxLength: 30, unit: 'grapheme' }).filter((name) => !/[\p{Cc}\u2028\u2029]/u.test(name));
const role = fc.constantFrom('source', 'standpipe', 'pump', 'tank', 'trough', 'tank', 'trough' as const);
const routeRole = fc.constantFrom('supply', 'drive', 'delivery', 'gravity' as const);

const nowhere = { id: 'nowhere' };

function pointAt(plan: Plan, index: number): PlanPoint | typeof nowhere {
  return plan.points[index % Math.max(1, plan.points.length)] ?? nowhere;
}

function pointOf(plan: Plan, roles: readonly PointRole[], index: number): PlanPoint | typeof nowhere {
  const fitting = plan.points.filter((point) => roles.includes(point.role));
  return fitting[index % Math.max(1, fitting.length)] ?? nowhere;
}

function routeAt(plan: Plan, index: number): PlanRoute | typeof nowhere {
  return plan.routes[index % Math.max(1, plan.routes.length)] ?? nowhere;
}

const pointSteps: fc.Arbitrary<Step>[] = [
  fc.tuple(role, position).map(
    ([r, at]) =>
      (plan) =>
        addPoint(plan, r, at),
  ),
  fc.tuple(pick, position).map(
    ([n, at]) =>
      (plan) =>
        movePoint(plan, pointAt(plan, n).id, at),
  ),
  pick.map((n) => (plan) => removePoint(plan, pointAt(plan, n).id)),
  fc.tuple(pick, text).map(
    ([n, name]) =>
      (plan) =>
        renamePoint(plan, pointAt(plan, n).id, name),
  ),
  fc.tuple(pick, height, flow).map(([n, h, volume]) => (plan) => {
    return changePoint(plan, pointAt(plan, n).id, 'tank', { inletHeight: h, volume });
  }),
  fc.tuple(pick, height, height).map(([n, a, b]) => (plan) => {
    return changePoint(plan, pointAt(plan, n).id, 'standpipe', { inletHeight: a, topHeight: b, bore: 0.1016 });
  }),
  fc.tuple(pick, fc.constantFrom('kept', 'candidate', 'set-aside' as const)).map(([n, standing]) => (plan) => {
    return setStanding(plan, pointAt(plan, n).id, standing);
  }),
];

const routeSteps: fc.Arbitrary<Step>[] = [
  fc.tuple(routeRole, pick, pick, line).map(([r, a, b, between]) => (plan) => {
    const [from, to] = [pointOf(plan, routeEnds[r].from, a).id, pointOf(plan, routeEnds[r].to, b).id];
    return addRoute(plan, { role: r, from, to, between });
  }),
  pick.map((n) => (plan) => removeRoute(plan, routeAt(plan, n).id)),
  fc.tuple(pick, text).map(
    ([n, note]) =>
      (plan) =>
        changeRoute(plan, routeAt(plan, n).id, { note, summits: 'vented' }),
  ),
  fc.tuple(pick, line).map(
    ([n, between]) =>
      (plan) =>
        drawRoute(plan, routeAt(plan, n).id, between),
  ),
  fc.tuple(pick, fc.nat({ max: 3 })).map(([n, count]) => (plan) => {
    return setFittings(plan, routeAt(plan, n).id, [{ fitting: 'elbow-45', count }]);
  }),
  fc.tuple(pick, fc.constantFrom('pvc-sch40-2in', 'pe100-sdr11-25', 'no-such-pipe')).map(([n, row]) => (plan) => {
    return setRoutePipe(plan, routeAt(plan, n).id, { kind: 'row', row });
  }),
  fc.tuple(pick, fc.nat({ max: 6 }), position).map(
    ([n, i, at]) =>
      (plan) =>
        moveVertex(plan, routeAt(plan, n).id, i, at),
  ),
  fc.tuple(pick, fc.nat({ max: 6 }), position).map(([n, i, at]) => (plan) => {
    return insertVertex(plan, routeAt(plan, n).id, i, at);
  }),
  fc.tuple(pick, fc.nat({ max: 6 })).map(
    ([n, i]) =>
      (plan) =>
        deleteVertex(plan, routeAt(plan, n).id, i),
  ),
];

const wholeSteps: fc.Arbitrary<Step>[] = [
  fc.tuple(text, fc.constantFrom('metric', 'us' as const), share).map(([name, units, dryShare]) => (plan) => {
    return changeSettings(plan, { name, units, dryShare });
  }),
  fc.tuple(share, flow, flow).map(([allowance, price, pack]) => (plan) => {
    const prices = [{ item: 'pe100-sdr11-25', unit: 'metre', price, pack }] as const;
    return changeSettings(plan, { materials: { currency: 'crowns', allowance: allowance / 2, prices } });
  }),
  fc.tuple(share, fc.double({ min: -20, max: 40, noNaN: true })).map(([sourceShare, airTemperature]) => (plan) => {
    const month = { season: 'summer', airTemperature, sourceShare } as const;
    return changeSettings(plan, { year: Array.from({ length: 12 }, () => month) });
  }),
  fc.tuple(flow, flow, flow, share).map(([a, b, set, efficiency]) => (plan) => {
    return setPump(plan, {
      kind: 'sheet',
      label: 'Made up',
      count: 1,
      driveBore: a,
      intakeLeast: a,
      intakeMost: b,
      intakeSet: set,
      efficiency: { low: efficiency / 2, likely: efficiency, high: efficiency },
      efficiencyCurve: [],
      leastDeliveryHead: null,
      measured: null,
    });
  }),
  fc.tuple(flow, fc.array(share, { minLength: 1, maxLength: 5 })).map(([volume, times]) => (plan) => {
    return setYieldReadings(plan, [{ kind: 'timed', volume, volumePlusMinus: volume / 50, times }]);
  }),
  fc.tuple(flow, fc.nat({ max: 40 })).map(([needPerDay, count]) => (plan) => {
    return setHerd(plan, [{ kind: 'own', label: 'Goats', needPerDay, count }]);
  }),
  fc.tuple(pick, height).map(([n, h]) => (plan) => {
    return setMeasurement(plan, { kind: 'height', point: pointAt(plan, n).id, height: h, plusMinus: 0.02 });
  }),
  fc.tuple(pick, pick, height).map(([a, b, rise]) => (plan) => {
    const [from, to] = [pointAt(plan, a).id, pointAt(plan, b).id];
    return setMeasurement(plan, { kind: 'difference', from, to, rise, plusMinus: 0.02 });
  }),
  pick.map((n) => (plan) => removeMeasurement(plan, pointAt(plan, n).id)),
];

/** A long afternoon of edits, some of which cannot be made. */
export const afternoon: fc.Arbitrary<readonly Step[]> = fc.array(
  fc.oneof(...pointSteps, ...pointSteps, ...routeSteps, ...routeSteps, ...wholeSteps),
  { minLength: 1, maxLength: 60, size: 'max' },
);
