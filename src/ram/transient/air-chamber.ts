import type { CubicMetres, CubicMetresPerSecond, Metres, Seconds, SquareMetres } from '../../units/quantity.ts';
import { atmosphericHead, polytropicExponent } from '../cycle/air.ts';
import type { DeliveryLine } from './delivery-line.ts';

/** Time in which the delivery line brings the chamber's mean back to the delivery head, s; long against a beat. */
export const settlingTime = 2;

/**
 * The air chamber: takes the strokes of the check valve and gives them on evenly.
 *
 * dV/dt = q_out − q_in, (h + 10.33) Vⁿ = const. The column in the delivery line is too heavy to follow single beats, so it
 * draws the running mean of what arrives, and a little more or less while the mean head lies above or below the delivery
 * head; or a delivery line is handed in and draws what its column carries. Without a chamber volume the head is constant.
 */
export class AirChamber {
  head: Metres = 0;
  /** Whether it has air that gives; without, its head is constant. */
  readonly elastic: boolean;
  private readonly settled: Metres;
  private air: CubicMetres;
  private drawn: CubicMetresPerSecond = 0;
  private readonly line: DeliveryLine | null;

  constructor(deliveryHead: Metres, volume: CubicMetres | null, line: DeliveryLine | null = null) {
    this.line = line;
    this.head = deliveryHead;
    this.settled = deliveryHead;
    this.elastic = volume !== null;
    this.air = volume ?? Number.POSITIVE_INFINITY;
  }

  take(inflow: CubicMetresPerSecond, dt: Seconds): void {
    const outflow = this.line === null ? this.evenFlow(inflow, dt) : this.line.step(this.head, dt);
    const gain = (inflow - outflow) * dt;
    const middle = this.air - gain / 2;
    this.head +=
      (polytropicExponent * (this.head + atmosphericHead) * gain) /
      middle /
      (1 - (polytropicExponent * gain) / (2 * middle));
    this.air -= gain;
  }

  private evenFlow(inflow: CubicMetresPerSecond, dt: Seconds): CubicMetresPerSecond {
    this.drawn += ((inflow - this.drawn) * dt) / settlingTime;
    const softness = this.air / (polytropicExponent * (this.head + atmosphericHead));
    return this.drawn + (softness * (this.head - this.settled)) / settlingTime;
  }
}

/** Air below which one time step would squeeze the chamber by more than the wave that fills it. */
export function leastAir(given: {
  readonly deliveryHead: Metres;
  readonly area: SquareMetres;
  readonly impedance: Seconds;
  readonly timeStep: Seconds;
}): CubicMetres {
  const stiffness = polytropicExponent * (given.deliveryHead + atmosphericHead);
  return (stepsToFill * stiffness * given.area * given.timeStep) / given.impedance;
}

/** Time steps that the filling of a chamber by a standing wave must take at least. */
const stepsToFill = 10;
