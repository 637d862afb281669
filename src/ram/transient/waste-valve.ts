import type { Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import {
  balancedWeight,
  type Closing,
  type Heads,
  liftingVelocity,
  type RamSystem,
  terminalVelocity,
} from '../cycle/ram-system.ts';
import { valveGravity } from '../cycle/valve-closing.ts';
import type { PumpNode } from './pump-node.ts';

/**
 * The waste valve in the transient model, between shut (opening 0) and wide open (opening 1).
 *
 * Free: x'' = g_eff (1 − H/h_w) between inelastic stops, with H the head under it.
 * Timed: wide open until the column reaches the velocity that shuts it, then closing evenly; open again, in the same time,
 * once the head under it has fallen below its weight.
 */
export class WasteValve {
  opening: Ratio = 1;
  /** Whether it has come to its seat in the last step. */
  seated = false;
  private speed = 0;
  private moving: -1 | 0 | 1 = 0;
  readonly free: boolean;
  /** Mean of the velocities at both ends of the drive pipe, in which the echo of the opening cancels; for a timed valve. */
  columnVelocity: MetresPerSecond = 0;
  private readonly weightHead: Metres;
  private readonly trigger: MetresPerSecond;
  /** Velocity that the free valve gains in a step by its weight, and loses for each metre of head. */
  private readonly fall: MetresPerSecond;
  private readonly lift: number;
  /** Share of the stroke that it travels in a step for each m/s. */
  private readonly stride: number;
  /** Share of the stroke that a timed valve travels in a step. */
  private readonly travel: Ratio;

  constructor(ram: RamSystem, heads: Heads, closing: Closing, dt: Seconds) {
    this.free = closing.kind === 'stroke' && closing.stroke > 0;
    const closingTime = closing.kind === 'stroke' ? 0 : closing.closingTime;
    this.travel = closingTime > dt ? dt / closingTime : 1;
    if (closing.kind === 'share') {
      this.trigger = closing.closureRatio * terminalVelocity(ram, heads.fall);
      this.weightHead = balancedWeight(ram, this.trigger);
    } else {
      this.weightHead = closing.weightHead;
      this.trigger = liftingVelocity(ram, closing.weightHead);
    }
    this.fall = valveGravity * dt;
    this.lift = (valveGravity * dt) / this.weightHead;
    this.stride = this.free && closing.kind === 'stroke' ? dt / closing.stroke : 0;
  }

  /** Moves it through one time step under the head at the pump. */
  move(pump: PumpNode): void {
    const before = this.opening;
    if (this.free) this.fly(pump);
    else this.follow(pump);
    this.seated = before > 0 && this.opening === 0;
  }

  private fly(pump: PumpNode): void {
    const speed = this.speed + this.fall - pump.head * this.lift;
    const opening = this.opening + speed * this.stride;
    const between = opening > 0 && opening < 1;
    this.speed = between ? speed : 0;
    this.opening = between ? opening : opening <= 0 ? 0 : 1;
  }

  private follow(pump: PumpNode): void {
    if (this.moving === 0 && this.opening === 1 && this.columnVelocity >= this.trigger) this.moving = -1;
    if (this.moving === 0 && this.opening === 0 && pump.head < this.weightHead) this.moving = 1;
    if (this.moving === 0) return;
    this.opening = Math.min(1, Math.max(0, this.opening + this.moving * this.travel));
    if (this.opening === 0 || this.opening === 1) this.moving = 0;
  }
}
