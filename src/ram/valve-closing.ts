import { GRAVITY } from '../hydraulics/gravity.ts';
import type { CubicMetres, Metres, MetresPerSecond, Ratio, Seconds } from '../units/quantity.ts';
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

interface Motion {
  /** Opening of the valve, m. */
  readonly x: number;
  /** Its velocity, m/s, opening positive. */
  readonly w: number;
  /** Velocity of the column, m/s. */
  readonly v: number;
}

/** Steps into which the time scale of the closing is divided; halving it moves the shut velocity by less than 1e-5. */
const stepsPerScale = 400;
/** The valve hangs where drag and weight balance; it is given this share of its weight to let go. */
const nudge = 1e-3;
/** Time scales after which a valve that has not shut never will. */
const mostScales = 60;

/**
 * A waste valve that shuts by its own motion: x'' = g_eff (1 − H_P/h_w), H_P = K_wv v²/(2 g (x/s)²) up to the delivery
 * head, while the column goes on by (L/g) v' = H − (K_e + f L/D + K_b) v²/2g − H_P.
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
  const area = boreArea(ram.bore);
  const valve = { ram, heads, weightHead: closing.weightHead, stroke: closing.stroke, loss: pipeLoss(ram) };
  const scale = Math.sqrt((2 * closing.stroke) / valveGravity);
  const dt = scale / stepsPerScale;
  let now: Motion = { x: closing.stroke, w: 0, v: start * (1 + nudge) };
  let volume = 0;
  let shut = 0;
  for (let step = 1; step <= mostScales * stepsPerScale; step += 1) {
    const before = wasteVelocity(valve, now);
    const next = rungeKutta(valve, now, dt);
    const part = next.x > 0 ? 1 : now.x / (now.x - next.x);
    const after = next.x > 0 ? wasteVelocity(valve, next) : 0;
    volume += (area * part * dt * (before + after)) / 2;
    if (shut === 0 && headUnder(valve, next) >= heads.deliveryHead) shut = next.v;
    if (next.x <= 0) {
      return { startVelocity: start, shutVelocity: shut || next.v, time: (step - 1 + part) * dt, volume };
    }
    now = next.x > closing.stroke ? { x: closing.stroke, w: 0, v: next.v } : next;
  }
  return null;
}

interface Valve {
  readonly ram: RamSystem;
  readonly heads: Heads;
  readonly weightHead: Metres;
  readonly stroke: Metres;
  readonly loss: Ratio;
}

function headUnder(valve: Valve, at: Motion): Metres {
  const opening = at.x / valve.stroke;
  if (opening <= 0) return valve.heads.deliveryHead;
  const head = (valve.ram.wasteValveLoss * at.v * at.v) / (2 * GRAVITY * opening * opening);
  return Math.min(head, valve.heads.deliveryHead);
}

function wasteVelocity(valve: Valve, at: Motion): MetresPerSecond {
  const full = Math.sqrt((2 * GRAVITY * headUnder(valve, at)) / valve.ram.wasteValveLoss);
  return (Math.max(0, at.x) / valve.stroke) * full;
}

function slope(valve: Valve, at: Motion): Motion {
  const head = headUnder(valve, at);
  const pipe = (valve.loss * at.v * at.v) / (2 * GRAVITY);
  return {
    x: at.w,
    w: valveGravity * (1 - head / valve.weightHead),
    v: (GRAVITY / valve.ram.length) * (valve.heads.fall - pipe - head),
  };
}

function rungeKutta(valve: Valve, at: Motion, dt: Seconds): Motion {
  const a = slope(valve, at);
  const b = slope(valve, moved(at, a, dt / 2));
  const c = slope(valve, moved(at, b, dt / 2));
  const d = slope(valve, moved(at, c, dt));
  const mean = { x: sum(a.x, b.x, c.x, d.x), w: sum(a.w, b.w, c.w, d.w), v: sum(a.v, b.v, c.v, d.v) };
  return moved(at, mean, dt);
}

function moved(at: Motion, by: Motion, dt: Seconds): Motion {
  return { x: at.x + by.x * dt, w: at.w + by.w * dt, v: at.v + by.v * dt };
}

/** Weights of the classical method: (a + 2b + 2c + d)/6. */
function sum(a: number, b: number, c: number, d: number): number {
  return (a + 2 * b + 2 * c + d) / 6;
}
