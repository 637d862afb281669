import { describe, expect, it } from 'vitest';
import { WavePipe, type WavePipeShape } from '../../src/ram/transient/wave-pipe.ts';

const gravity = 9.80665;
const shape: WavePipeShape = {
  bore: 0.025,
  length: 8,
  waveSpeed: 1400,
  darcyFactor: 0,
  reaches: 50,
  vapourHead: -1e6,
  rise: 0,
};
const level = 2.4;

/** One step between a constant level and a pump end through which the water passes at a given velocity. */
function step(pipe: WavePipe, pumpVelocity: number): number {
  pipe.advance();
  pipe.leaveInlet(2 * level - pipe.arrivingAtInlet());
  const head = pipe.arrivingAtPump() - pipe.impedance * pumpVelocity;
  pipe.leavePump(2 * head - pipe.arrivingAtPump());
  return head;
}

/** Energy of motion and of pressure against the level's, J per kg/m³ of water. */
function energy(pipe: WavePipe): number {
  const cell = shape.length / (pipe.nodes - 1);
  let sum = 0;
  for (let i = 0; i < pipe.nodes; i += 1) {
    const share = i === 0 || i === pipe.nodes - 1 ? cell / 2 : cell;
    const pressure = (pipe.headAt(i) - level) / pipe.impedance;
    sum += (pipe.area * share * (pipe.velocityAt(i) ** 2 + pressure ** 2)) / 2;
  }
  return sum;
}

describe('pressure waves in the drive pipe', () => {
  it('swing as a square wave of ± a v/g with a period of 4 L/a when the water is stopped at once', () => {
    // Joukowsky 1898, exact for a frictionless pipe.
    const v = 1.16;
    const pipe = new WavePipe(shape, { head: level, velocity: v });
    const rise = (1400 * v) / gravity;
    const halfPeriod = 2 * shape.reaches;
    for (let i = 1; i <= 12 * halfPeriod; i += 1) {
      const head = step(pipe, 0);
      const sign = Math.floor((i - 1) / halfPeriod) % 2 === 0 ? 1 : -1;
      expect(head - level).toBeCloseTo(sign * rise, 9);
    }
    expect(2 * halfPeriod * pipe.timeStep).toBeCloseTo((4 * 8) / 1400, 15);
  });

  it('give the rigid column’s L/g dv/dt when the water is stopped slowly', () => {
    const v = 1;
    const pipe = new WavePipe(shape, { head: level, velocity: v });
    const steps = 100 * 4 * shape.reaches;
    const duration = steps * pipe.timeStep;
    let sum = 0;
    let highest = 0;
    for (let i = 1; i <= steps; i += 1) {
      const head = step(pipe, v * (1 - i / steps)) - level;
      sum += head;
      highest = Math.max(highest, head);
    }
    const rigid = (8 / gravity) * (v / duration);
    expect(sum / steps / rigid).toBeCloseTo(1, 3);
    // A ramp that sets in at once rings about the mean, so the peak is twice the rigid head and no more.
    expect(highest / rigid).toBeLessThan(2.02);
  });

  it('keep their energy for a thousand swings when nothing rubs', () => {
    const pipe = new WavePipe(shape, { head: level, velocity: 1 });
    step(pipe, 0);
    const start = energy(pipe);
    for (let i = 0; i < 1000 * 4 * shape.reaches; i += 1) step(pipe, 0);
    expect(energy(pipe) / start).toBeCloseTo(1, 9);
  });

  it('only ever lose energy to friction, and in steady flow the head of Darcy and Weisbach', () => {
    const rough = new WavePipe({ ...shape, darcyFactor: 0.03 }, { head: level, velocity: 1 });
    let before = energy(rough);
    for (let i = 0; i < 400; i += 1) {
      step(rough, 0);
      const now = energy(rough);
      expect(now).toBeLessThan(before * (1 + 1e-12));
      before = now;
    }
    const steady = new WavePipe({ ...shape, darcyFactor: 0.03 }, { head: level, velocity: 1 });
    let head = 0;
    for (let i = 0; i < 400 * shape.reaches; i += 1) head = step(steady, 1);
    // The ringing of the start dies with friction; what is left is the loss.
    const swing: number[] = [];
    for (let i = 0; i < 4 * shape.reaches; i += 1) swing.push(step(steady, 1));
    head = swing.reduce((sum, each) => sum + each, 0) / swing.length;
    expect(level - head).toBeCloseTo((0.03 * (8 / 0.025)) / (2 * gravity), 4);
  });

  it('never fall below the vapour’s head, and give the water of their cavities back', () => {
    const vapourHead = -10.2;
    const pipe = new WavePipe({ ...shape, vapourHead, darcyFactor: 0.02 }, { head: level, velocity: -0.5 });
    let opened = 0;
    let lowest = 0;
    for (let i = 0; i < 4000; i += 1) {
      pipe.advance();
      pipe.leaveInlet(2 * level - pipe.arrivingAtInlet());
      const head = Math.max(vapourHead, pipe.arrivingAtPump());
      pipe.leavePump(2 * head - pipe.arrivingAtPump());
      opened = Math.max(opened, pipe.cavityVolume());
      pipe.advance();
      pipe.leaveInlet(2 * level - pipe.arrivingAtInlet());
      pipe.leavePump(pipe.arrivingAtPump());
      lowest = Math.min(lowest, head);
    }
    expect(lowest).toBeGreaterThanOrEqual(vapourHead);
    expect(pipe.cavityVolume()).toBe(0);
    expect(opened).toBeGreaterThan(0);
  });

  it('are the same whether a pipe has the program to itself or takes turns with another', () => {
    const alone = new WavePipe({ ...shape, darcyFactor: 0.03 }, { head: level, velocity: 1 });
    const heads = Array.from({ length: 5000 }, () => step(alone, 0));
    const first = new WavePipe({ ...shape, darcyFactor: 0.03 }, { head: level, velocity: 1 });
    const second = new WavePipe({ ...shape, darcyFactor: 0.01, reaches: 33 }, { head: level, velocity: 2 });
    const shared = Array.from({ length: 5000 }, () => {
      step(second, 0);
      return step(first, 0);
    });
    expect(shared).toEqual(heads);
  });
});
