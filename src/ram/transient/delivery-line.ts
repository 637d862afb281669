import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetresPerSecond, Metres, Seconds, SquareMetres } from '../../units/quantity.ts';

/** A delivery pipe beyond the air chamber. */
export interface DeliveryLineShape {
  readonly length: Metres;
  readonly area: SquareMetres;
  /** Governing level over the waste valve's outlet. */
  readonly staticHead: Metres;
  /** Friction and local losses at a flow. */
  readonly headLoss: (flow: CubicMetresPerSecond) => Metres;
  /** Flow with which it starts; near what will be delivered, so that it settles soon. */
  readonly startFlow: CubicMetresPerSecond;
}

/** Steps after which the friction is looked up anew; the flow changes slowly against a wave's passage. */
const stepsBetween = 16;
/** Flow below which friction is taken as that of this flow for each m³/s. */
const leastFlow: CubicMetresPerSecond = 1e-9;

/**
 * The water in the delivery pipe as one rigid column: (L/gA) dq/dt = h − h_static − h_f(q), friction implicit.
 *
 * Source: rigid column, Wylie & Streeter, Fluid Transients in Systems, Prentice Hall, 1993, chapter 5 (from memory).
 */
export class DeliveryLine {
  flow: CubicMetresPerSecond = 0;
  private readonly shape: DeliveryLineShape;
  private readonly inertia: number;
  private resistance = 0;
  private sinceLookUp = stepsBetween;

  constructor(shape: DeliveryLineShape) {
    this.shape = shape;
    this.flow = shape.startFlow;
    this.inertia = shape.length / (GRAVITY * shape.area);
  }

  step(head: Metres, dt: Seconds): CubicMetresPerSecond {
    this.sinceLookUp += 1;
    if (this.sinceLookUp >= stepsBetween) this.lookUp();
    const push = (dt / this.inertia) * (head - this.shape.staticHead);
    this.flow = (this.flow + push) / (1 + (dt / this.inertia) * this.resistance);
    return this.flow;
  }

  private lookUp(): void {
    const flow = Math.max(leastFlow, Math.abs(this.flow));
    this.resistance = this.shape.headLoss(flow) / flow;
    this.sinceLookUp = 0;
  }
}
