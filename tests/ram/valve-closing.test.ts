import { describe, expect, it } from 'vitest';
import { boreArea, liftingVelocity, terminalVelocity } from '../../src/ram/cycle/ram-system.ts';
import { valveClosing, valveGravity } from '../../src/ram/cycle/valve-closing.ts';
import { exampleHeads, exampleRam } from './example-ram.ts';

const gravity = 9.80665;

/** Valve and column stepped finely by the simplest rule, until the valve seats. */
function stepped(weightHead: number, stroke: number) {
  const dt = 2e-7;
  let x = stroke;
  let w = 0;
  let v = liftingVelocity(exampleRam, weightHead) * 1.001;
  let time = 0;
  let path = 0;
  let shutVelocity = 0;
  while (x > 0) {
    const opening = x / stroke;
    const free = (6 * v * v) / (2 * gravity * opening * opening);
    const head = Math.min(free, 15);
    if (free >= 15 && shutVelocity === 0) shutVelocity = v;
    path += opening * Math.sqrt((2 * gravity * head) / 6) * dt;
    w += valveGravity * (1 - head / weightHead) * dt;
    x = Math.min(stroke, x + w * dt);
    if (shutVelocity === 0) v += (gravity / 8) * (2.4 - (11.1 * v * v) / (2 * gravity) - head) * dt;
    time += dt;
  }
  return { time, shutVelocity, volume: path * boreArea(0.025) };
}

describe('the closing of the waste valve', () => {
  it.each([
    { weightHead: 0.3, stroke: 0.005 },
    { weightHead: 0.1, stroke: 0.002 },
    { weightHead: 0.6, stroke: 0.008 },
  ])('over its stroke is that of a finely stepped valve: $weightHead m, $stroke m', ({ weightHead, stroke }) => {
    const found = valveClosing(exampleRam, exampleHeads, { kind: 'stroke', weightHead, stroke });
    const oracle = stepped(weightHead, stroke);
    expect(Math.abs((found?.shutVelocity ?? 0) / oracle.shutVelocity - 1)).toBeLessThan(2e-3);
    expect(Math.abs((found?.time ?? 0) / oracle.time - 1)).toBeLessThan(2e-3);
    expect(Math.abs((found?.volume ?? 0) / oracle.volume - 1)).toBeLessThan(2e-3);
  });

  it('starts when the drag lifts the valve and ends faster, since it takes time', () => {
    const found = valveClosing(exampleRam, exampleHeads, { kind: 'stroke', weightHead: 0.3, stroke: 0.005 });
    expect(found?.startVelocity).toBeCloseTo(Math.sqrt((2 * gravity * 0.3) / 6), 12);
    expect(found?.shutVelocity).toBeGreaterThan(found?.startVelocity ?? 9);
    expect(found?.shutVelocity).toBeLessThan(terminalVelocity(exampleRam, 2.4));
  });

  it('comes to the instant closing as the stroke goes to nothing', () => {
    const short = valveClosing(exampleRam, exampleHeads, { kind: 'stroke', weightHead: 0.3, stroke: 1e-6 });
    const atOnce = valveClosing(exampleRam, exampleHeads, { kind: 'weight', weightHead: 0.3, closingTime: 0 });
    expect((short?.shutVelocity ?? 0) / (atOnce?.shutVelocity ?? 1)).toBeCloseTo(1, 2);
    expect(short?.time).toBeLessThan(3e-3);
    expect(atOnce?.volume).toBe(0);
  });

  it('never comes when the terminal flow cannot lift the valve', () => {
    // h_w must stay below H K_wv/M = 2.4 m 6/17.1 = 0.842 m.
    expect(valveClosing(exampleRam, exampleHeads, { kind: 'stroke', weightHead: 0.85, stroke: 0.005 })).toBeNull();
    expect(valveClosing(exampleRam, exampleHeads, { kind: 'weight', weightHead: 0.85, closingTime: 0 })).toBeNull();
    expect(valveClosing(exampleRam, exampleHeads, { kind: 'weight', weightHead: 0.83, closingTime: 0 })).not.toBeNull();
  });
});
