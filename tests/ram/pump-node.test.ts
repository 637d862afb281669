import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  headBetweenValves,
  orificeRoot,
  PumpNode,
  signedRoot,
  valveConductance,
} from '../../src/ram/transient/pump-node.ts';

const impedance = 1400 / 9.80665;

/** Root of a falling function by halving: slow and sure. */
function halved(f: (head: number) => number): number {
  let low = -1e4;
  let high = 1e4;
  for (let i = 0; i < 200; i += 1) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const arriving = fc.double({ min: -600, max: 900, noNaN: true });
const conductance = fc.double({ min: 1e-4, max: 4, noNaN: true });

describe('the head at the pump', () => {
  it('with both valves open is the one that halving finds', () => {
    fc.assert(
      fc.property(
        arriving,
        fc.oneof(fc.constant(0), conductance),
        conductance,
        fc.double({ min: 0.5, max: 300, noNaN: true }),
        fc.double({ min: 20, max: 160, noNaN: true }),
        (c, waste, check, chamberHead, b) => {
          const found = headBetweenValves({ arriving: c, chamberHead, waste, check }, b);
          const oracle = halved((h) => c - h - b * (waste * signedRoot(h) + check * signedRoot(h - chamberHead)));
          expect(Math.abs(found - oracle)).toBeLessThan(1e-7 * (1 + Math.abs(oracle)));
        },
      ),
      { numRuns: 3000 },
    );
  });

  it('with one valve open keeps the flow of pipe and valve equal', () => {
    fc.assert(
      fc.property(arriving, conductance, fc.boolean(), (c, conducts, wasteOnly) => {
        const node = new PumpNode(impedance, 15, 2.4);
        node.arriving = c;
        node.waste = wasteOnly ? conducts : 0;
        node.check = wasteOnly ? 0 : conducts;
        node.solve();
        const head = wasteOnly ? node.head : node.head - 15;
        expect(node.velocity).toBeCloseTo(conducts * signedRoot(head), 8);
        expect(node.velocity).toBeCloseTo((c - node.head) / impedance, 8);
        expect(node.wasteVelocity + node.checkVelocity).toBeCloseTo(node.velocity, 12);
      }),
    );
  });

  it('with both valves shut is what arrives, and nothing moves', () => {
    const node = new PumpNode(impedance, 15, 2.4);
    for (const c of [0, 12, -8]) {
      node.arriving = c;
      node.solve();
      expect(node.head).toBeCloseTo(c, 12);
      expect(node.velocity).toBeCloseTo(0, 15);
    }
  });

  it('loses K v²/2g in a valve', () => {
    expect(valveConductance(6) * Math.sqrt((6 * 1.3 ** 2) / (2 * 9.80665))).toBeCloseTo(1.3, 12);
    expect(orificeRoot(0, 0)).toBe(0);
  });
});
