import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import {
  boreArea,
  type Closing,
  type Heads,
  liftingVelocity,
  pipeLoss,
  type RamSystem,
  terminalVelocity,
} from './ram-system.ts';

export interface ValveClosing {
  /** Velocity at which the waste valve starts to move. */
  readonly startVelocity: MetresPerSecond;
  /** v_c: velocity of the column when the waste valve has shut. */
  readonly shutVelocity: MetresPerSecond;
  readonly time: Seconds;
  /** Water that the waste valve still lets out while it closes. */
  readonly volume: CubicMetres;
}

/**
 * g_eff: acceleration of a falling valve of bronze or iron under water, its own added mass included, m/s².
 * Source: common practice, no source (gravity less buoyancy for a relative density of about 7.5).
 */
export const valveGravity = 8.5;

/** The closing of the waste valve; null when the water never gets fast enough to lift it. */
export function valveClosing(ram: RamSystem, heads: Heads, closing: Closing): ValveClosing | null {
  return valveClosings(ram, heads.fall, closing)(heads.deliveryHead);
}

/** The closing at one fall for any delivery head. The head bears on its very end only, so that most is worked out once. */
export function valveClosings(
  ram: RamSystem,
  fall: Metres,
  closing: Closing,
): (deliveryHead: Metres) => ValveClosing | null {
  const timed = (velocity: MetresPerSecond, time: Seconds) => (deliveryHead: Metres) =>
    timedClosing(ram, { fall, deliveryHead }, velocity, time);
  const terminal = terminalVelocity(ram, fall);
  if (closing.kind === 'share') return timed(closing.closureRatio * terminal, closing.closingTime);
  const start = liftingVelocity(ram, closing.weightHead);
  if (!(start < terminal)) return () => null;
  if (closing.kind === 'weight') return timed(start, closing.closingTime);
  if (!(closing.stroke > 0)) return timed(start, 0);
  const way = new ClosingWay(ram, fall, closing, start);
  return (deliveryHead) => way.closingAt(deliveryHead);
}

/**
 * A waste valve that shuts evenly within a given time while the column keeps its velocity.
 *
 * V = A v t (1 − y/2), y = √(h₀/h), h₀ = K_wv v²/2g: all the water until the opening has shrunk to y and the head under
 * the valve has risen to the delivery's, then less and less of it.
 *
 * v velocity, m/s; t closing time, s; A cross section of the drive pipe, m²; h delivery head, m; K_wv loss coefficient of
 * the open valve. Range: t short against the acceleration. Source: derived here from the orifice law.
 */
export function timedClosing(ram: RamSystem, heads: Heads, velocity: MetresPerSecond, time: Seconds): ValveClosing {
  const openHead = (ram.wasteValveLoss * velocity * velocity) / (2 * GRAVITY);
  const opening: Ratio = Math.min(1, Math.sqrt(openHead / heads.deliveryHead));
  const volume = boreArea(ram.bore) * velocity * time * (1 - opening / 2);
  return { startVelocity: velocity, shutVelocity: velocity, time, volume };
}

/** Steps into which the time scale of the closing is divided; twice as many move the shut velocity by less than 1e-3. */
const stepsPerScale = 50;
/** The valve hangs where drag and weight balance; the column is given this much more velocity to let it go. */
const nudge = 1e-3;
/** Time scales after which a valve that has not shut never will. */
const mostScales = 60;

/**
 * A waste valve that shuts by its own motion: x'' = g_eff (1 − H_P/h_w), H_P = K_wv v²/(2 g (x/s)²) up to the delivery
 * head, while the column goes on by (L/g) v' = H − (K_e + f L/D + K_b) v²/2g − H_P. From where H_P has reached the delivery
 * head it stays there, and the rest is a fall under constant acceleration.
 *
 * x opening and s stroke, m; g_eff effective gravity, m/s²; h_w weight as a head, m; v velocity of the column, m/s.
 * Source: derived here; integrated by the classical Runge-Kutta method.
 */
class ClosingWay {
  readonly #ram: RamSystem;
  readonly #fall: Metres;
  readonly #closing: { readonly weightHead: Metres; readonly stroke: Metres };
  readonly #start: MetresPerSecond;
  readonly #dt: Seconds;
  readonly #motion: ValveMotion;
  /** Where the valve and the column were after each step: what was worked out for one delivery head serves the others. */
  readonly #done: MotionState[];

  constructor(
    ram: RamSystem,
    fall: Metres,
    closing: { readonly weightHead: Metres; readonly stroke: Metres },
    start: MetresPerSecond,
  ) {
    this.#ram = ram;
    this.#fall = fall;
    this.#closing = closing;
    this.#start = start;
    this.#dt = Math.sqrt((2 * closing.stroke) / valveGravity) / stepsPerScale;
    this.#motion = new ValveMotion(ram, fall, closing);
    this.#done = [{ x: closing.stroke, w: 0, v: start * (1 + nudge), path: 0 }];
  }

  closingAt(deliveryHead: Metres): ValveClosing | null {
    const gapOf = this.#motion.gapUnder(deliveryHead);
    let before = this.#done[0];
    for (let step = 1; step <= mostScales * stepsPerScale && before !== undefined; step += 1) {
      const known = this.#done[step];
      if (known !== undefined && gapOf(known) > 0) {
        before = known;
        continue;
      }
      const next = this.#motion.after(before, this.#dt, deliveryHead);
      if (gapOf(next) <= 0) return this.#endBetween({ before, next, step, deliveryHead }, gapOf);
      // A step that has ended for another head is not this one's.
      if (known !== undefined) return this.#endBetween({ before, next: known, step, deliveryHead }, gapOf);
      this.#done.push(next);
      before = next;
    }
    return null;
  }

  #endBetween(
    {
      before,
      next,
      step,
      deliveryHead,
    }: {
      readonly before: MotionState;
      readonly next: MotionState;
      readonly step: number;
      readonly deliveryHead: Metres;
    },
    gapOf: (state: MotionState) => Metres,
  ): ValveClosing {
    const heads = { fall: this.#fall, deliveryHead };
    const gap = gapOf(before);
    const part = gap / (gap - gapOf(next));
    const at = (from: number, to: number) => from + part * (to - from);
    const velocity = at(before.v, next.v);
    const opening = Math.max(0, at(before.x, next.x));
    const rest = restOfClosing(this.#ram, heads, this.#closing, { x: opening, w: Math.min(0, at(before.w, next.w)) });
    const path = next.path - ((1 - part) * this.#dt * (before.v + next.v)) / 2;
    return {
      startVelocity: this.#start,
      shutVelocity: velocity,
      time: (step - 1 + part) * this.#dt + rest.time,
      volume: boreArea(this.#ram.bore) * (path + rest.path),
    };
  }
}

/** What is left once the head under the valve is the delivery's: x = x₀ + w₀ t − b t²/2, b = g_eff (h/h_w − 1). */
function restOfClosing(
  ram: RamSystem,
  heads: Heads,
  closing: { readonly weightHead: Metres; readonly stroke: Metres },
  at: { readonly x: Metres; readonly w: MetresPerSecond },
): { readonly time: Seconds; readonly path: Metres } {
  const b = valveGravity * (heads.deliveryHead / closing.weightHead - 1);
  const time = (2 * at.x) / (Math.sqrt(at.w * at.w + 2 * b * at.x) - at.w || Number.POSITIVE_INFINITY);
  const openings = (at.x + (at.w * time) / 2 - (b * time * time) / 6) * time;
  const through = Math.sqrt((2 * GRAVITY * heads.deliveryHead) / ram.wasteValveLoss) / closing.stroke;
  return { time, path: openings * through };
}

/** Waste valve and column while the valve comes down. */
interface MotionState {
  /** Opening, m, and its rate, opening positive. */
  readonly x: Metres;
  readonly w: MetresPerSecond;
  readonly v: MetresPerSecond;
  /** Way of the column since the start, all of it through the waste valve. */
  readonly path: Metres;
}

/** The laws by which they move. */
class ValveMotion {
  private readonly stroke: Metres;
  private readonly weightHead: Metres;
  /** K_wv s²/2g: head under the valve times opening squared over velocity squared. */
  private readonly drag: number;
  private readonly gain: number;
  private readonly fall: Metres;
  /** Pipe loss over velocity squared, s²/m. */
  private readonly loss: number;

  constructor(ram: RamSystem, fall: Metres, closing: { readonly weightHead: Metres; readonly stroke: Metres }) {
    this.stroke = closing.stroke;
    this.weightHead = closing.weightHead;
    this.drag = (ram.wasteValveLoss * closing.stroke ** 2) / (2 * GRAVITY);
    this.gain = GRAVITY / ram.length;
    this.fall = fall;
    this.loss = pipeLoss(ram) / (2 * GRAVITY);
  }

  /** How far the valve still stands above the opening at which the head under it reaches the delivery's. */
  gapUnder(deliveryHead: Metres): (state: MotionState) => Metres {
    const perVelocity = Math.sqrt(this.drag / deliveryHead);
    return ({ x, v }) => x - v * perVelocity;
  }

  /** One step on, by the classical Runge-Kutta method. */
  after({ x, w, v, path }: MotionState, dt: Seconds, most: Metres): MotionState {
    const half = dt / 2;
    const h1 = this.head(x, v, most);
    const w1 = this.pull(h1);
    const v1 = this.push(h1, v);
    const h2 = this.head(x + half * w, v + half * v1, most);
    const w2 = this.pull(h2);
    const v2 = this.push(h2, v + half * v1);
    const h3 = this.head(x + half * (w + half * w1), v + half * v2, most);
    const w3 = this.pull(h3);
    const v3 = this.push(h3, v + half * v2);
    const h4 = this.head(x + dt * (w + half * w2), v + dt * v3, most);
    const opening = Math.min(this.stroke, x + dt * w + ((w1 + w2 + w3) * dt * dt) / 6);
    const velocity = v + ((v1 + 2 * v2 + 2 * v3 + this.push(h4, v + dt * v3)) * dt) / 6;
    return {
      x: opening,
      w: opening < this.stroke ? w + ((w1 + 2 * w2 + 2 * w3 + this.pull(h4)) * dt) / 6 : 0,
      v: velocity,
      path: path + (dt * (v + velocity)) / 2,
    };
  }

  private head(x: Metres, v: MetresPerSecond, most: Metres): Metres {
    return x > 0 ? Math.min(most, (this.drag * v * v) / (x * x)) : most;
  }

  private pull(head: Metres): number {
    return valveGravity * (1 - head / this.weightHead);
  }

  private push(head: Metres, v: MetresPerSecond): number {
    return this.gain * (this.fall - this.loss * v * v - head);
  }
}
