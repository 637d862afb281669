import type { CubicMetres, Metres, Seconds, SquareMetres } from '../../units/quantity.ts';
import { atmosphericHead, polytropicExponent } from '../cycle/air.ts';
import type { PumpNode } from './pump-node.ts';

/** What an air pocket asks of the pipe that ends in it. */
interface PipeEnd {
  readonly impedance: Seconds;
  readonly area: SquareMetres;
  readonly timeStep: Seconds;
}

/** Least absolute head of the air, m: below it the pocket would grow without end. */
const leastHead: Metres = 0.1;

/**
 * Air caught under the valves: (H + 10.33) Vⁿ = const, and what it gives way by is the pipe's.
 *
 * In a step it takes (A/B + k)(…): V(H) ≈ V − k A dt (H − H₀), k = V/(n (H₀ + 10.33) A dt), which is the same as a pipe of the
 * impedance 1/(1/B + k) with its arriving characteristic moved towards the old head; then the gas law sets the volume.
 *
 * Source: derived here from the polytropic law; the concentrated air pocket of Wylie & Streeter, 1993, chapter 8 (from memory).
 */
export class AirPocket {
  private readonly volume: CubicMetres;
  private readonly still: Metres;
  private head: Metres;

  constructor(volume: CubicMetres, still: Metres) {
    this.volume = volume;
    this.still = still;
    this.head = still;
  }

  /** Makes the pump see the pipe's end with the air on it. */
  soften(pump: PumpNode, pipe: PipeEnd): void {
    const give = this.volumeAt(this.head) / (polytropicExponent * this.absolute(this.head) * pipe.area * pipe.timeStep);
    const admittance = 1 / pipe.impedance + give;
    pump.arriving = (pump.arriving / pipe.impedance + give * this.head) / admittance;
    pump.impedance = 1 / admittance;
  }

  squeeze(head: Metres): void {
    this.head = head;
  }

  private volumeAt(head: Metres): CubicMetres {
    return this.volume * (this.absolute(this.still) / this.absolute(head)) ** (1 / polytropicExponent);
  }

  private absolute(head: Metres): Metres {
    return Math.max(leastHead, head + atmosphericHead);
  }
}
