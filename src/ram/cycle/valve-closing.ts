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
  const terminal = terminalVelocity(ram, heads.fall);
  if (closing.kind === 'share') return timedClosing(ram, heads, closing.closureRatio * terminal, closing.closingTime);
  const start = liftingVelocity(ram, closing.weightHead);
  if (!(start < terminal)) return null;
  if (closing.kind === 'weight') return timedClosing(ram, heads, start, closing.closingTime);
  return closing.stroke > 0 ? strokeClosing(ram, heads, closing, start) : timedClosing(ram, heads, start, 0);
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
function strokeClosing(
  ram: RamSystem,
  heads: Heads,
  closing: { readonly weightHead: Metres; readonly stroke: Metres },
  start: MetresPerSecond,
): ValveClosing | null {
  const motion = new ValveMotion(ram, heads, closing, start * (1 + nudge));
  const dt = Math.sqrt((2 * closing.stroke) / valveGravity) / stepsPerScale;
  for (let step = 1; step <= mostScales * stepsPerScale; step += 1) {
    const before = { x: motion.x, w: motion.w, v: motion.v, gap: motion.gap() };
    motion.advance(dt);
    const gap = motion.gap();
    if (gap > 0) continue;
    const part = before.gap / (before.gap - gap);
    const at = (from: number, to: number) => from + part * (to - from);
    const velocity = at(before.v, motion.v);
    const opening = Math.max(0, at(before.x, motion.x));
    const rest = restOfClosing(ram, heads, closing, { x: opening, w: Math.min(0, at(before.w, motion.w)) });
    const path = motion.path - ((1 - part) * dt * (before.v + motion.v)) / 2;
    return {
      startVelocity: start,
      shutVelocity: velocity,
      time: (step - 1 + part) * dt + rest.time,
      volume: boreArea(ram.bore) * (path + rest.path),
    };
  }
  return null;
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
class ValveMotion {
  /** Opening, m, and its rate, opening positive. */
  x: Metres;
  w: MetresPerSecond = 0;
  v: MetresPerSecond;
  /** Way of the column since the start, all of it through the waste valve. */
  path: Metres = 0;
  private readonly stroke: Metres;
  private readonly weightHead: Metres;
  private readonly deliveryHead: Metres;
  /** K_wv s²/2g: head under the valve times opening squared over velocity squared. */
  private readonly drag: number;
  private readonly gain: number;
  private readonly fall: Metres;
  /** Pipe loss over velocity squared, s²/m. */
  private readonly loss: number;

  constructor(
    ram: RamSystem,
    heads: Heads,
    closing: { readonly weightHead: Metres; readonly stroke: Metres },
    velocity: MetresPerSecond,
  ) {
    this.x = closing.stroke;
    this.v = velocity;
    this.stroke = closing.stroke;
    this.weightHead = closing.weightHead;
    this.deliveryHead = heads.deliveryHead;
    this.drag = (ram.wasteValveLoss * closing.stroke ** 2) / (2 * GRAVITY);
    this.gain = GRAVITY / ram.length;
    this.fall = heads.fall;
    this.loss = pipeLoss(ram) / (2 * GRAVITY);
  }

  /** How far the valve still stands above the opening at which the head under it reaches the delivery's. */
  gap(): Metres {
    return this.x - this.v * Math.sqrt(this.drag / this.deliveryHead);
  }

  advance(dt: Seconds): void {
    const { x, w, v } = this;
    const half = dt / 2;
    const h1 = this.head(x, v);
    const w1 = this.pull(h1);
    const v1 = this.push(h1, v);
    const h2 = this.head(x + half * w, v + half * v1);
    const w2 = this.pull(h2);
    const v2 = this.push(h2, v + half * v1);
    const h3 = this.head(x + half * (w + half * w1), v + half * v2);
    const w3 = this.pull(h3);
    const v3 = this.push(h3, v + half * v2);
    const h4 = this.head(x + dt * (w + half * w2), v + dt * v3);
    this.x = Math.min(this.stroke, x + dt * w + ((w1 + w2 + w3) * dt * dt) / 6);
    this.w = this.x < this.stroke ? w + ((w1 + 2 * w2 + 2 * w3 + this.pull(h4)) * dt) / 6 : 0;
    this.v = v + ((v1 + 2 * v2 + 2 * v3 + this.push(h4, v + dt * v3)) * dt) / 6;
    this.path += (dt * (v + this.v)) / 2;
  }

  private head(x: Metres, v: MetresPerSecond): Metres {
    return x > 0 ? Math.min(this.deliveryHead, (this.drag * v * v) / (x * x)) : this.deliveryHead;
  }

  private pull(head: Metres): number {
    return valveGravity * (1 - head / this.weightHead);
  }

  private push(head: Metres, v: MetresPerSecond): number {
    return this.gain * (this.fall - this.loss * v * v - head);
  }
}
