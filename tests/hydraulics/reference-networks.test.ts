import { describe, expect, it } from 'vitest';
import { headLoss } from '../../src/hydraulics/head-loss.ts';
import { type PipeFlow, pipeFlow } from '../../src/hydraulics/pipe-flow.ts';
import { hazenWilliamsLoss } from './hazen-williams.ts';
import { type ReferencePipe, solveByReference } from './reference-solver.ts';

/** Water at 10 °C by IAPWS. */
const viscosity = 1.3063e-6;
const law = { kind: 'D-W', viscosity } as const;

const ours = (pipe: ReferencePipe): PipeFlow =>
  pipeFlow({ bore: pipe.bore, length: pipe.length, roughness: pipe.wall, k: pipe.k, viscosity });

const within = (value: number, reference: number, relative: number): void =>
  expect(Math.abs(value / reference - 1)).toBeLessThanOrEqual(relative);

/**
 * Tolerance on a flow by regime. EPANET reckons with g = 32.2 ft/s² (0.08 % above ours) and, above Re 4000, with Swamee and
 * Jain's fit, which lies up to 2.8 % off Colebrook in f on rough walls below Re 11 000, and so half of that in flow; between
 * 2000 and 4000 either program has an interpolation of its own.
 */
function toleranceAt(reynolds: number): number {
  if (reynolds <= 2000) return 0.001;
  if (reynolds < 4000) return 0.03;
  return reynolds < 11_000 ? 0.015 : 0.01;
}

const regimeOf = (reynolds: number): string =>
  reynolds <= 2000 ? 'laminar' : reynolds < 4000 ? 'transition' : 'turbulent';

describe('one line between two levels, against EPANET', () => {
  const walls = [1.5e-6, 1.5e-4];
  const bores = [0.0125, 0.016, 0.0266, 0.0409, 0.0525, 0.1];
  const heads = [0.01, 0.03, 0.1, 0.3, 1, 3, 10, 40];
  const lines = walls.flatMap((wall) =>
    bores.flatMap((bore) => heads.map((head) => ({ wall, bore, head, length: 100, k: wall > 1e-5 ? 6.5 : 0 }))),
  );

  it('agrees on the flow of 96 lines: laminar to 0.1 %, transition to 3 %, turbulent to 1.5 and then 1 %', async () => {
    const solution = await solveByReference({
      law,
      levels: Object.fromEntries(
        lines.flatMap(({ head }, i) => [
          [`A${i}`, 500 + head],
          [`B${i}`, 500],
        ]),
      ),
      pipes: Object.fromEntries(lines.map((line, i) => [`P${i}`, { from: `A${i}`, to: `B${i}`, ...line }])),
    });
    const met = new Map<string, number>();
    for (const [i, line] of lines.entries()) {
      const pipe = { ...line, from: '', to: '' };
      const flow = ours(pipe).flowFor(line.head);
      const { reynolds } = headLoss({ ...line, roughness: line.wall, viscosity, flow });
      within(flow, solution.flow(`P${i}`), toleranceAt(reynolds));
      met.set(regimeOf(reynolds), (met.get(regimeOf(reynolds)) ?? 0) + 1);
    }
    expect(met.get('laminar')).toBeGreaterThan(5);
    expect(met.get('transition')).toBeGreaterThan(5);
    expect(met.get('turbulent')).toBeGreaterThan(50);
  });
});

describe('small networks, against EPANET', () => {
  it('a line pushed uphill needs its lift and its friction', async () => {
    const pipe: ReferencePipe = { from: 'pump', to: 'tank', length: 320, bore: 0.0209, wall: 1.5e-6, k: 4 };
    const flow = 1.5e-4;
    const solution = await solveByReference({
      law,
      levels: { tank: 345.6 },
      nodes: { pump: { elevation: 300, drawn: -flow } },
      pipes: { delivery: pipe },
    });
    within(solution.flow('delivery'), flow, 1e-6);
    within(ours(pipe).headLoss(flow), solution.head('pump') - 345.6, 0.01);
  });

  it('two sizes in series share one flow', async () => {
    const wide: ReferencePipe = { from: 'spring', to: 'joint', length: 140, bore: 0.0409, wall: 1.5e-6, k: 0.5 };
    const narrow: ReferencePipe = { from: 'joint', to: 'trough', length: 90, bore: 0.0266, wall: 1.5e-6, k: 3 };
    const solution = await solveByReference({
      law,
      levels: { spring: 112, trough: 100 },
      nodes: { joint: { elevation: 101, drawn: 0 } },
      pipes: { wide, narrow },
    });
    const [first, second] = [ours(wide), ours(narrow)];
    const flow = rootOf((q) => first.headLoss(q) + second.headLoss(q) - 12);
    within(flow, solution.flow('wide'), 0.01);
    expect(Math.abs(112 - first.headLoss(flow) - solution.head('joint'))).toBeLessThan(0.01 * 12);
  });

  it('two lines side by side add their flows', async () => {
    const left: ReferencePipe = { from: 'spring', to: 'box', length: 140, bore: 0.0409, wall: 1.5e-6, k: 1.5 };
    const right: ReferencePipe = { from: 'spring', to: 'box', length: 155, bore: 0.0266, wall: 1.5e-4, k: 2 };
    const solution = await solveByReference({ law, levels: { spring: 103.5, box: 100 }, pipes: { left, right } });
    const total = ours(left).flowFor(3.5) + ours(right).flowFor(3.5);
    within(total, solution.flow('left') + solution.flow('right'), 0.01);
    within(ours(right).flowFor(3.5), solution.flow('right'), 0.01);
  });

  it('a summit above the water line stands below atmospheric pressure', async () => {
    const rising: ReferencePipe = { from: 'tank', to: 'summit', length: 60, bore: 0.0266, wall: 1.5e-6, k: 0.5 };
    const falling: ReferencePipe = { from: 'summit', to: 'trough', length: 110, bore: 0.0266, wall: 1.5e-6, k: 1 };
    const solution = await solveByReference({
      law,
      levels: { tank: 200, trough: 190 },
      nodes: { summit: { elevation: 201.5, drawn: 0 } },
      pipes: { rising, falling },
    });
    const flow = rootOf((q) => ours(rising).headLoss(q) + ours(falling).headLoss(q) - 10);
    const pressure = 200 - ours(rising).headLoss(flow) - 201.5;
    expect(solution.pressure('summit')).toBeLessThan(-3);
    expect(Math.abs(pressure - solution.pressure('summit'))).toBeLessThan(0.01 * 10);
  });

  it('three levels meet in one node, and the middle one is fed or feeds as its height says', async () => {
    const pipe = (from: string, length: number): ReferencePipe => ({
      from,
      to: 'node',
      length,
      bore: 0.04,
      wall: 1.5e-6,
      k: 1,
    });
    const pipes = { high: pipe('spring', 80), middle: pipe('standpipe', 15), low: pipe('overflow', 60) };
    const levels = { spring: 105, standpipe: 103.2, overflow: 100 };
    const solution = await solveByReference({ law, levels, nodes: { node: { elevation: 98, drawn: 0 } }, pipes });
    const into = (level: number): number =>
      ours(pipes.high).flowFor(105 - level) +
      ours(pipes.middle).flowFor(103.2 - level) +
      ours(pipes.low).flowFor(100 - level);
    let [low, high] = [100, 105];
    for (let step = 0; step < 60; step += 1) {
      const middle = (low + high) / 2;
      if (into(middle) > 0) low = middle;
      else high = middle;
    }
    expect(Math.abs(low - solution.head('node'))).toBeLessThan(0.02);
    within(ours(pipes.high).flowFor(105 - low), solution.flow('high'), 0.01);
    within(ours(pipes.low).flowFor(100 - low), solution.flow('low'), 0.01);
  });
});

describe('Hazen-Williams, against EPANET and its own constants', () => {
  it.each([
    { bore: 0.0266, head: 12, coefficient: 150 },
    { bore: 0.0525, head: 4, coefficient: 140 },
    { bore: 0.1, head: 25, coefficient: 120 },
  ])('$bore m of C $coefficient under $head m', async ({ bore, head, coefficient }) => {
    const line: ReferencePipe = { from: 'A', to: 'B', length: 250, bore, wall: coefficient, k: 0 };
    const solution = await solveByReference({
      law: { kind: 'H-W' },
      levels: { A: 100 + head, B: 100 },
      pipes: { line },
    });
    within(hazenWilliamsLoss({ flow: solution.flow('line'), bore, length: 250, coefficient }), head, 1e-4);
  });
});

/** Where a rising function of the flow crosses zero, between none and 20 L/s. */
function rootOf(rising: (flow: number) => number): number {
  let [low, high] = [0, 0.02];
  for (let step = 0; step < 80; step += 1) {
    const middle = (low + high) / 2;
    if (rising(middle) < 0) low = middle;
    else high = middle;
  }
  return low;
}
