import { describe, expect, test } from 'vitest';
import { AirChamber } from '../../src/ram/transient/air-chamber.ts';

/** Head of the atmosphere, m of water, and exponent of air squeezed in a beat, as docs/ram-model.md states them. */
const ATMOSPHERE = 10.33;
const EXPONENT = 1.2;
const HEAD = 15;
const AIR = 0.002;

describe('the air in the chamber', () => {
  test.each([0.05, -0.05])('keeps (h + 10.33) Vⁿ when %f of it is taken up at once', (share) => {
    const chamber = new AirChamber(HEAD, AIR);
    const dt = 1e-6;
    // So short that nothing leaves by the delivery line meanwhile.
    chamber.take((share * AIR) / dt, dt);
    const law = (HEAD + ATMOSPHERE) * (1 - share) ** -EXPONENT - ATMOSPHERE;
    // The step is of second order: off by less than a thousandth of the change.
    expect(Math.abs(chamber.head - law)).toBeLessThan(1.5e-3 * Math.abs(law - HEAD));
  });

  test('comes back to its head when as much is given as was taken', () => {
    const chamber = new AirChamber(HEAD, AIR);
    const dt = 1e-6;
    chamber.take((0.04 * AIR) / dt, dt);
    chamber.take((-0.04 * AIR) / dt, dt);
    expect(chamber.head).toBeCloseTo(HEAD, 3);
  });
});
