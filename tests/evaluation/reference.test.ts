import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { pipeRow } from '../../src/handbook/pipe-rows.ts';
import { waterAt } from '../../src/hydraulics/water.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { solveByReference } from '../hydraulics/reference-solver.ts';
import { madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** EPANET 2.2 takes Swamee and Jain's friction factor; 1 % covers the difference to Colebrook's in turbulent flow. */
const WITHIN = 0.01;

const viscosity = waterAt(workingPlan.waterTemperature).viscosity;

function pipeOf(row: string, ends: { readonly from: string; readonly to: string; readonly length: number }) {
  const found = pipeRow(row);
  if (found === null) throw new Error(`found no pipe ${row}`);
  return { ...ends, bore: found.bore, wall: found.roughness, k: 1.5 };
}

test('the standpipe’s running level is EPANET’s head at the end of the supply line', async () => {
  const flow = litresPerMinute(60);
  const plan: Plan = {
    ...workingPlan,
    pump: { ...sheet, intakeMost: flow, intakeSet: flow },
    yieldReadings: [{ kind: 'stated', flow: 2 * flow, plusMinus: 0 }],
    dryShare: 1,
  };
  const result = evaluate(plan, madeGround(plan, { heights: workingHeights, lengths: workingLengths }));
  const supply = result.lines.find((l) => l.id === 'supply');
  const reference = await solveByReference({
    law: { kind: 'D-W', viscosity },
    levels: { spring: 104.5 },
    nodes: { standpipe: { elevation: 103.7, drawn: flow } },
    pipes: { supply: pipeOf('pe100-sdr17-63', { from: 'spring', to: 'standpipe', length: supply?.slope ?? 0 }) },
  });
  const lost = 104.5 - reference.head('standpipe');
  expect(lost).toBeGreaterThan(0.1);
  expect(Math.abs((supply?.friction ?? 0) - lost) / lost).toBeLessThan(WITHIN);
  expect(result.pump?.fall.likely).toBeCloseTo(reference.head('standpipe') - 100.2, 2);
});

test('the supply line’s limit is EPANET’s flow between the source and a covered inlet', async () => {
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const result = evaluate(workingPlan, ground);
  const slope = result.lines.find((l) => l.id === 'supply')?.slope ?? 0;
  // The covered inlet: 0.3 m above the ground and under the depth the submergence rule asks for at this intake.
  const submergence = 104.5 - 103.7 - levelOverInlet(result.pump?.supplyLimit?.likely ?? 0, slope);
  expect(submergence).toBeGreaterThanOrEqual(0.15 - 1e-9);
  const reference = await solveByReference({
    law: { kind: 'D-W', viscosity },
    levels: { spring: 104.5, standpipe: 103.7 + submergence },
    pipes: { supply: pipeOf('pe100-sdr17-63', { from: 'spring', to: 'standpipe', length: slope }) },
  });
  expect((result.pump?.supplyLimit?.likely ?? 0) / reference.flow('supply')).toBeCloseTo(1, 2);
});

/** Head lost by a flow in the supply line by Swamee and Jain, Journal of the Hydraulics Division 102, 1976, with K 1.5. */
function levelOverInlet(flow: number, length: number): number {
  const row = pipeRow('pe100-sdr17-63');
  const bore = row?.bore ?? 1;
  const v = (4 * flow) / (Math.PI * bore * bore);
  const f = 0.25 / Math.log10((row?.roughness ?? 0) / (3.7 * bore) + 5.74 / ((v * bore) / viscosity) ** 0.9) ** 2;
  return (((f * length) / bore + 1.5) * v * v) / (2 * 9.80665);
}

test('a trough’s gravity line runs as EPANET has it between tank and float valve', async () => {
  const result = evaluate(workingPlan, madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths }));
  const slope = result.lines.find((l) => l.id === 'gravity')?.slope ?? 0;
  const reference = await solveByReference({
    law: { kind: 'D-W', viscosity },
    levels: { tank: 123.2, trough: 118.6 },
    pipes: { gravity: pipeOf('pe100-sdr11-25', { from: 'tank', to: 'trough', length: slope }) },
  });
  const flow = result.troughs[0]?.flow?.likely ?? 0;
  expect(Math.abs(flow - reference.flow('gravity')) / reference.flow('gravity')).toBeLessThan(WITHIN);
});

test('the delivery head is EPANET’s head at the pump when it puts the delivered flow in', async () => {
  const lengths = { ...workingLengths, delivery: 1500 };
  const result = evaluate(workingPlan, madeGround(workingPlan, { heights: workingHeights, lengths }));
  const line = result.tanks[0]?.line;
  const slope = result.lines.find((l) => l.id === 'delivery')?.slope ?? 0;
  const reference = await solveByReference({
    law: { kind: 'D-W', viscosity },
    levels: { tank: 125 },
    nodes: { ram: { elevation: 100.2, drawn: -((line?.ifRunningPerDay?.likely ?? 0) / 86_400) } },
    pipes: { delivery: pipeOf('pe100-sdr11-25', { from: 'ram', to: 'tank', length: slope }) },
  });
  const head = (line?.governingLift.likely ?? 0) + (line?.friction ?? 0);
  expect(head).toBeCloseTo(reference.pressure('ram'), 1);
  // D'Aubuisson: q h = η Q H, with EPANET's head.
  const work = 0.5 * (result.pump?.driveFlow?.likely ?? 0) * (result.pump?.fall.likely ?? 0);
  expect((((line?.ifRunningPerDay?.likely ?? 0) / 86_400) * reference.pressure('ram')) / work).toBeCloseTo(1, 2);
});
