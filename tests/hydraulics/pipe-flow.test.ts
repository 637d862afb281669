import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flowForHead, headLoss } from '../../src/hydraulics/head-loss.ts';
import { type PipeAbout, pipeFlow } from '../../src/hydraulics/pipe-flow.ts';

const pipes: fc.Arbitrary<PipeAbout> = fc.record({
  bore: fc.double({ min: 0.008, max: 0.15, noNaN: true }),
  length: fc.double({ min: 1, max: 5000, noNaN: true }),
  roughness: fc.double({ min: 0, max: 4e-4, noNaN: true }),
  k: fc.double({ min: 0, max: 50, noNaN: true }),
  viscosity: fc.double({ min: 4.7e-7, max: 1.8e-6, noNaN: true }),
});
const flows = fc.double({ min: 1e-9, max: 0.05, noNaN: true });

const near = (value: number, expected: number, relative: number): void =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

describe('head lost in a pipe', () => {
  it('is that of Hagen and Poiseuille in laminar flow: 128 ν L q / (π g D⁴)', () => {
    const pipe: PipeAbout = { bore: 0.016, length: 100, roughness: 1.5e-6, k: 0, viscosity: 1.3063e-6 };
    const flow = 1e-5;
    near(pipeFlow(pipe).headLoss(flow), (128 * 1.3063e-6 * 100 * flow) / (Math.PI * 9.80665 * 0.016 ** 4), 1e-12);
  });

  it('adds K velocity heads for the fittings', () => {
    const pipe: PipeAbout = { bore: 0.05, length: 0, roughness: 0, k: 7.5, viscosity: 1e-6 };
    const state = headLoss({ ...pipe, flow: 0.004 });
    const speed = 0.004 / ((Math.PI / 4) * 0.05 ** 2);
    near(state.headLoss, (7.5 * speed ** 2) / (2 * 9.80665), 1e-12);
    near(state.local, state.headLoss, 1e-12);
    near(flowForHead({ ...pipe, head: state.headLoss }).flow, 0.004, 1e-12);
  });

  it('a pipe drawn backwards loses the same head', () => {
    fc.assert(
      fc.property(pipes, flows, (pipe, flow) => {
        expect(pipeFlow(pipe).headLoss(-flow)).toBe(-pipeFlow(pipe).headLoss(flow));
        const head = pipeFlow(pipe).headLoss(flow);
        expect(pipeFlow(pipe).flowFor(-head)).toBe(-pipeFlow(pipe).flowFor(head));
      }),
    );
  });

  it('more flow always loses more', () => {
    fc.assert(
      fc.property(pipes, flows, fc.double({ min: 1e-6, max: 2, noNaN: true }), (pipe, flow, more) => {
        const { headLoss: loss } = pipeFlow(pipe);
        expect(loss(flow * (1 + more))).toBeGreaterThan(loss(flow));
      }),
    );
  });

  it('two lengths one after the other lose what one of both lengths loses', () => {
    fc.assert(
      fc.property(pipes, flows, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (pipe, flow, share) => {
        const part = (of: number): number =>
          pipeFlow({ ...pipe, length: pipe.length * of, k: pipe.k * of }).headLoss(flow);
        near(part(share) + part(1 - share), pipeFlow(pipe).headLoss(flow), 1e-12);
      }),
    );
  });

  it('depends on size only through the Reynolds number: everything twice as large, viscosity too, is the same pipe', () => {
    fc.assert(
      fc.property(pipes, flows, fc.double({ min: 0.2, max: 5, noNaN: true }), (pipe, flow, s) => {
        const { bore, length, roughness, viscosity, k } = pipe;
        const larger = { bore: bore * s, length: length * s, roughness: roughness * s, viscosity: viscosity * s, k };
        near(pipeFlow(larger).headLoss(flow * s * s), pipeFlow(pipe).headLoss(flow), 1e-9);
      }),
    );
  });

  it('the flow for a head loses that head, in every regime', () => {
    fc.assert(
      fc.property(pipes, fc.double({ min: -12, max: 4, noNaN: true }), (pipe, exponent) => {
        const head = 10 ** exponent;
        near(pipeFlow(pipe).headLoss(pipeFlow(pipe).flowFor(head)), head, 1e-9);
      }),
      { numRuns: 5000 },
    );
  });

  it('no flow loses nothing, and no head drives nothing', () => {
    const pipe: PipeAbout = { bore: 0.016, length: 100, roughness: 0, k: 3, viscosity: 1.3e-6 };
    expect(pipeFlow(pipe).headLoss(0)).toBe(0);
    expect(pipeFlow(pipe).flowFor(0)).toBe(0);
    expect(headLoss({ ...pipe, flow: 0 })).toEqual({
      flow: 0,
      velocity: 0,
      reynolds: 0,
      frictionFactor: null,
      friction: 0,
      local: 0,
      headLoss: 0,
    });
  });

  it('colder water loses more in the same pipe, laminar or turbulent', () => {
    fc.assert(
      fc.property(pipes, flows, (pipe, flow) => {
        const colder = { ...pipe, viscosity: pipe.viscosity * 1.3 };
        const { reynolds } = headLoss({ ...pipe, flow });
        fc.pre(reynolds <= 2000 || reynolds >= 4000 * 1.3);
        expect(pipeFlow(colder).headLoss(flow)).toBeGreaterThanOrEqual(pipeFlow(pipe).headLoss(flow) * (1 - 1e-12));
      }),
    );
  });

  it('friction, local loss and factor of a state belong together', () => {
    fc.assert(
      fc.property(pipes, flows, (pipe, flow) => {
        const state = headLoss({ ...pipe, flow });
        const heads = state.velocity ** 2 / (2 * 9.80665);
        const friction = ((state.frictionFactor ?? 0) * pipe.length * heads) / pipe.bore;
        expect(Math.abs(state.friction - friction)).toBeLessThanOrEqual(1e-9 * state.headLoss);
        expect(Math.abs(state.local - pipe.k * heads)).toBeLessThanOrEqual(1e-9 * state.headLoss);
      }),
    );
  });

  it.each([
    { bore: 0 },
    { bore: Number.NaN },
    { length: -1 },
    { roughness: -1e-6 },
    { k: Number.POSITIVE_INFINITY },
    { viscosity: 0 },
    { roughness: 0.01 },
  ])('a pipe with %o is a program error', (wrong) => {
    const pipe: PipeAbout = { bore: 0.016, length: 100, roughness: 0, k: 0, viscosity: 1e-6, ...wrong };
    expect(() => pipeFlow(pipe)).toThrow(RangeError);
  });

  it('a pipe without length or losses carries any flow, so none is given', () => {
    const pipe = pipeFlow({ bore: 0.016, length: 0, roughness: 0, k: 0, viscosity: 1e-6 });
    expect(pipe.headLoss(1)).toBe(0);
    expect(() => pipe.flowFor(1)).toThrow(/expected either/);
    expect(() => pipe.flowFor(Number.NaN)).toThrow(/finite/);
    expect(() => pipe.headLoss(Number.NaN)).toThrow(/finite/);
  });
});
