import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import { boreArea, deliveryLoss, type Heads, type RamSystem } from './ram-system.ts';

export interface DeliverySteps {
  /** Δv: what one passage of the pressure wave takes from the velocity. */
  readonly velocityStep: MetresPerSecond;
  /** μ = v_c/Δv; without losses nothing is delivered below 1. */
  readonly stepRatio: Ratio;
  /** Mean velocity through the check valve in the first step; not positive when nothing is delivered. */
  readonly firstVelocity: MetresPerSecond;
  /** N: wave periods 2L/a in which water goes to the delivery. */
  readonly count: number;
  readonly time: Seconds;
  readonly volume: CubicMetres;
  /** Velocity of the column when the last step ends, between −Δv and Δv. */
  readonly residual: MetresPerSecond;
}

/**
 * What goes through the check valve once the waste valve has shut on water at `velocity`, in steps of one wave period.
 *
 * Δv = g(h − H)/a; u₁ = v − Δv − K_d v²/2a; u₍ₙ₊₁₎ = uₙ − 2Δv − K_d uₙ²/a while positive, each lasting 2L/a;
 * V = A (2L/a) Σuₙ. Without losses N = ⌊(v/Δv + 1)/2⌋ and V = (2 A L Δv/a)(N v/Δv − N²).
 *
 * v, u velocities, m/s; a wave speed, m/s; L, A length and cross section of the drive pipe; h, H delivery head and fall, m;
 * K_d loss coefficient with the check valve open. Range: h > H, closing within 2L/a.
 * Source: Krol, The automatic hydraulic ram, Proc. Inst. Mech. Engrs 165, 1951 (structure); closed form derived here.
 */
export function deliverySteps(ram: RamSystem, heads: Heads, velocity: MetresPerSecond): DeliverySteps {
  const step = (GRAVITY * (heads.deliveryHead - heads.fall)) / ram.waveSpeed;
  const drag = deliveryLoss(ram) / ram.waveSpeed;
  const firstVelocity = velocity - step - (drag * velocity * velocity) / 2;
  const period = (2 * ram.length) / ram.waveSpeed;
  let count = 0;
  let sum = 0;
  let u = firstVelocity;
  while (u > 0) {
    count += 1;
    sum += u;
    u -= 2 * step + drag * u * u;
  }
  return {
    velocityStep: step,
    stepRatio: velocity / step,
    firstVelocity,
    count,
    time: count * period,
    volume: boreArea(ram.bore) * period * sum,
    residual: Math.max(-step, u + step),
  };
}

/** h_max = H + (a v − K_d v²/2)/g: the delivery head at which the first step just vanishes, m. */
export function highestDeliveryHead(ram: RamSystem, fall: Metres, velocity: MetresPerSecond): Metres {
  const lost = (deliveryLoss(ram) * velocity * velocity) / 2;
  return fall + (ram.waveSpeed * velocity - lost) / GRAVITY;
}
