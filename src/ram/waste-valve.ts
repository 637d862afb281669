import type { Metres, MetresPerSecond, Ratio, Seconds } from '../units/quantity.ts';
import {
  balancedWeight,
  type Closing,
  type Heads,
  liftingVelocity,
  type RamSystem,
  terminalVelocity,
} from './ram-system.ts';
import { valveGravity } from './valve-closing.ts';

/**
 * The waste valve in the transient model, between shut (opening 0) and wide open (opening 1).
 *
 * Free: x'' = g_eff (1 − H/h_w) between inelastic stops, with H the head under it.
 * Timed: wide open until the water reaches the velocity that shuts it, then closing evenly; open again, in the same time,
 * once the head under it has fallen below its weight.
 */
export class WasteValve {
  opening: Ratio = 1;
  private speed = 0;
  private moving: -1 | 0 | 1 = 0;
  private readonly free: boolean;
  private readonly stroke: Metres;
  private readonly weightHead: Metres;
  private readonly trigger: MetresPerSecond;
  private readonly travelTime: Seconds;

  constructor(ram: RamSystem, heads: Heads, closing: Closing) {
    this.free = closing.kind === 'stroke' && closing.stroke > 0;
    this.stroke = closing.kind === 'stroke' ? closing.stroke : 0;
    this.travelTime = closing.kind === 'stroke' ? 0 : closing.closingTime;
    if (closing.kind === 'share') {
      this.trigger = closing.closureRatio * terminalVelocity(ram, heads.fall);
      this.weightHead = balancedWeight(ram, this.trigger);
    } else {
      this.weightHead = closing.weightHead;
      this.trigger = liftingVelocity(ram, closing.weightHead);
    }
  }

  /** Moves it through one time step; true when it has just come to its seat. */
  move(head: Metres, velocity: MetresPerSecond, dt: Seconds): boolean {
    const before = this.opening;
    if (this.free) this.fly(head, dt);
    else this.travel(head, velocity, dt);
    return before > 0 && this.opening === 0;
  }

  private fly(head: Metres, dt: Seconds): void {
    this.speed += valveGravity * (1 - head / this.weightHead) * dt;
    const opening = this.opening + (this.speed * dt) / this.stroke;
    if (opening > 0 && opening < 1) {
      this.opening = opening;
      return;
    }
    this.opening = opening <= 0 ? 0 : 1;
    this.speed = 0;
  }

  private travel(head: Metres, velocity: MetresPerSecond, dt: Seconds): void {
    if (this.moving === 0 && this.opening === 1 && velocity >= this.trigger) this.moving = -1;
    if (this.moving === 0 && this.opening === 0 && head < this.weightHead) this.moving = 1;
    if (this.moving === 0) return;
    const step = this.travelTime > dt ? dt / this.travelTime : 1;
    this.opening = Math.min(1, Math.max(0, this.opening + this.moving * step));
    if (this.opening === 0 || this.opening === 1) this.moving = 0;
  }
}
