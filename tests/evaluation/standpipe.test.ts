import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { standpipeLevel } from '../../src/evaluation/result/standpipe-level.ts';
import { sectionOf, standpipeMotion, surgeAbove } from '../../src/evaluation/result/standpipe-result.ts';
import { pipeFlow } from '../../src/hydraulics/pipe-flow.ts';
import { madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** A pipe whose flow is in proportion to the head, as in laminar flow: then everything has a closed form. */
const proportional = (perMetre: number) => ({
  headLoss: (q: number) => q / perMetre,
  flowFor: (h: number) => h * perMetre,
});

describe('the level of a standpipe over time', () => {
  const base = { source: 10, inflow: 1, stored: 1e9, section: 0.02, inlet: 9, intake: 0.0006 };

  test('sinks as an exponential and frees the inlet when the closed form says', () => {
    // A y' = Q − c y with y the depth below the source: y = Q/c (1 − e^(−ct/A)); inlet at y = 1.
    const c = 0.0005;
    const { airAfter } = standpipeLevel({ ...base, supply: proportional(c) });
    const exact = (-base.section / c) * Math.log(1 - c / base.intake);
    expect(airAfter).not.toBeNull();
    expect(Math.abs((airAfter ?? 0) / exact - 1)).toBeLessThan(0.05);
  });

  test('is told to sink on where a large store outlasts what is looked at', () => {
    // 0.1 L/s more drawn than the spring brings, from 1000 m³: 1e7 s, some 116 days.
    const course = standpipeLevel({ ...base, inflow: 0.0005, stored: 1000, supply: proportional(0.01) });
    expect(course.airAfter).toBeNull();
    expect(course.sinksOn).toBe(true);
    expect(standpipeLevel({ ...base, supply: proportional(0.001) }).sinksOn).toBe(false);
  });

  test('comes to rest above the inlet when the line brings enough', () => {
    const { airAfter, moments } = standpipeLevel({ ...base, supply: proportional(0.001) });
    expect(airAfter).toBeNull();
    expect(moments.at(-1)?.level).toBeCloseTo(10 - 0.6, 4);
  });

  test('a spring box of 360 L makes up for a tenth of a litre a second for an hour, then the air comes', () => {
    const { airAfter, moments } = standpipeLevel({ ...base, inflow: 0.0005, stored: 0.36, supply: proportional(0.01) });
    const empty = moments.find((m) => m.stored === 0)?.time ?? 0;
    expect(empty).toBeGreaterThan(3500);
    expect(empty).toBeLessThan(3700);
    // 0.94 m above the inlet in a pipe of 0.02 m² at 0.1 L/s: 188 s.
    expect((airAfter ?? 0) - empty).toBeGreaterThan(170);
    expect((airAfter ?? 0) - empty).toBeLessThan(200);
  });
});

describe('swing and surge', () => {
  const pipe = {
    bore: 0.1,
    flow: 0.0004,
    supply: { length: 80, bore: 0.05, headLoss: (q: number) => 4e5 * q * q },
    beatsPerMinute: 60,
  };

  test('a stopped column surges as high as integrating its motion says', () => {
    // L/g · dQ/dt / A_s = −z − h_f(Q), A dz/dt = Q: small steps by hand from the running flow and its level.
    const [section, line] = [sectionOf(pipe.bore), sectionOf(pipe.supply.bore)];
    let [flow, z, highest] = [pipe.flow, -pipe.supply.headLoss(pipe.flow), 0];
    const dt = 1e-4;
    for (let t = 0; t < 60; t += dt) {
      const loss = Math.sign(flow) * pipe.supply.headLoss(flow);
      flow -= ((9.80665 * line) / pipe.supply.length) * (z + loss) * dt;
      z += (flow / section) * dt;
      highest = Math.max(highest, z);
    }
    expect(standpipeMotion(pipe).surge).toBeCloseTo(highest, 3);
  });

  test('the friction of an 80 m line takes a third of the surge that it would have without', () => {
    // 51.4 mm bore, 39.7 L/min, a standpipe of 102 mm: 0.317 m by an independent integration, 0.471 m without friction.
    const line = pipeFlow({ bore: 0.0514, roughness: 1.5e-6, viscosity: 1.307e-6, length: 80, k: 0 });
    const surge = surgeAbove({
      flow: 39.7 / 60_000,
      length: 80,
      lineSection: sectionOf(0.0514),
      section: sectionOf(0.102),
      headLoss: (q) => line.headLoss(q),
    });
    expect(Math.abs(surge - 0.317)).toBeLessThan(0.01);
  });

  test('a pipe of twice the bore swings a quarter as far', () => {
    expect(standpipeMotion({ ...pipe, bore: 0.2 }).swing).toBeCloseTo(standpipeMotion(pipe).swing / 4, 12);
  });
});

test('places for the standpipe keep both rules of length and are told with ground and height', () => {
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const result = evaluate(workingPlan, ground).standpipe;
  const [stretch] = result?.places?.stretches ?? [];
  const fall = evaluate(workingPlan, ground).pump?.fall.likely ?? 0;
  const bore = 0.03505; // 1-1/4 in Schedule 40 steel, ASTM A53: 1.380 in.
  expect(stretch?.from).toBeGreaterThanOrEqual(Math.max(150 * bore, 5 * fall) - 0.5);
  expect(stretch?.to).toBeLessThanOrEqual(Math.min(1000 * bore, 10 * fall) + 0.5);
  const best = result?.places?.best;
  expect(best?.driveLength).toBeCloseTo(7 * fall, 0);
  expect((best?.ground ?? 0) + (best?.height ?? 0)).toBeCloseTo(104.5 + 0.3, 9);
});
