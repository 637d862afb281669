import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds, SquareMetres } from '../../units/quantity.ts';

/** A drive pipe with its pump, as the formulas of the cycle need them. Loss coefficients are on v²/2g in the drive pipe. */
export interface RamSystem {
  readonly bore: Metres;
  readonly length: Metres;
  readonly waveSpeed: MetresPerSecond;
  readonly darcyFactor: Ratio;
  readonly entranceLoss: Ratio;
  readonly bendLoss: Ratio;
  /** Waste valve wide open, its outlet included. */
  readonly wasteValveLoss: Ratio;
  readonly checkValveLoss: Ratio;
  /** How long the check valve stays open once the water in it has turned; 0 for an ideal one. */
  readonly checkLag: Seconds;
}

export interface Heads {
  /** Running water level at the drive pipe's inlet minus the level of the waste valve's outlet. */
  readonly fall: Metres;
  /** Head at the pump: governing level of the delivery minus waste valve level, plus friction at the flow delivered. */
  readonly deliveryHead: Metres;
}

/** How the waste valve comes to shut. */
export type Closing =
  /** It has shut when the water moves at this share of its terminal velocity; closing takes `closingTime`. */
  | { readonly kind: 'share'; readonly closureRatio: Ratio; readonly closingTime: Seconds }
  /** Its weight or spring, as a head, lets go when the drag of the water exceeds it; it then takes `closingTime`. */
  | { readonly kind: 'weight'; readonly weightHead: Metres; readonly closingTime: Seconds }
  /** The same, but the time comes from the motion of the valve over its stroke. */
  | { readonly kind: 'stroke'; readonly weightHead: Metres; readonly stroke: Metres };

/** Cross section of the drive pipe: π D²/4. */
export function boreArea(bore: Metres): SquareMetres {
  return (Math.PI * bore * bore) / 4;
}

/** M, the loss coefficient of the whole way with the waste valve open: K_e + f L/D + K_b + K_wv. */
export function wasteLoss(ram: RamSystem): Ratio {
  return pipeLoss(ram) + ram.wasteValveLoss;
}

/** K_d, the loss coefficient of the whole way with the check valve open: K_e + f L/D + K_b + K_cv. */
export function deliveryLoss(ram: RamSystem): Ratio {
  return pipeLoss(ram) + ram.checkValveLoss;
}

/** Loss coefficient of the drive pipe alone: K_e + f L/D + K_b. */
export function pipeLoss(ram: RamSystem): Ratio {
  return ram.entranceLoss + (ram.darcyFactor * ram.length) / ram.bore + ram.bendLoss;
}

/** v_∞ = √(2 g H / M): the velocity the water would reach if the waste valve never shut; infinite without losses. */
export function terminalVelocity(ram: RamSystem, fall: Metres): MetresPerSecond {
  return Math.sqrt((2 * GRAVITY * fall) / wasteLoss(ram));
}

/** v_s = √(2 g h_w / K_wv): the steady velocity whose drag just balances the weight of the open waste valve. */
export function liftingVelocity(ram: RamSystem, weightHead: Metres): MetresPerSecond {
  return Math.sqrt((2 * GRAVITY * weightHead) / ram.wasteValveLoss);
}

/** h_w = K_wv v²/2g: the weight, as a head, that the drag of water at this velocity just balances. */
export function balancedWeight(ram: RamSystem, velocity: MetresPerSecond): Metres {
  return (ram.wasteValveLoss * velocity * velocity) / (2 * GRAVITY);
}
