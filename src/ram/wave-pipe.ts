import { GRAVITY } from '../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds, SquareMetres } from '../units/quantity.ts';
import { boreArea } from './ram-system.ts';

export interface WavePipeShape {
  readonly bore: Metres;
  readonly length: Metres;
  readonly waveSpeed: MetresPerSecond;
  readonly darcyFactor: Ratio;
  /** Parts into which the length is divided; the time step is the wave's passage through one. */
  readonly reaches: number;
  /** Head at which the water at the lower end boils, above the waste valve's outlet: about −10.2 m at sea level. */
  readonly vapourHead: Metres;
  /** How much the inlet lies above the lower end; the pipe is taken as straight. */
  readonly rise: Metres;
}

/** Steps between two moves of the sliding windows back to their start. */
const slideRoom = 4096;

/**
 * Pressure waves in the drive pipe by the method of characteristics.
 *
 * Kept at each node are the two characteristics, down = H + (a/g) v and up = H − (a/g) v, which in one time step L/(n a)
 * move one node down or up the pipe and lose f Δx v|v|/2gD on the way. They are stored in windows that slide over their
 * arrays, so that moving them costs nothing and a step is two reads, two writes and a friction term. Where the pressure
 * would fall below the vapour pressure a cavity opens at the node and takes up the difference of the flows.
 *
 * A step: `advance`, then both ends answer with `leaveInlet` and `leavePump`.
 * Range: friction as in steady flow; a whole number of reaches.
 * Source: Wylie & Streeter, Fluid Transients in Systems, Prentice Hall, 1993, chapters 3 and 8 (from memory).
 */
export class WavePipe {
  readonly area: SquareMetres;
  /** a/g: head for each m/s of velocity, s. */
  readonly impedance: Seconds;
  readonly timeStep: Seconds;
  readonly nodes: number;
  private readonly down: Float64Array;
  private readonly up: Float64Array;
  private downAt = slideRoom;
  private upAt = 0;
  /** Head lost on a reach is this times d|d|, d = down − up = 2 (a/g) v. */
  private readonly drag: number;
  private readonly cavities: Float64Array;
  private readonly floors: Float64Array;
  private readonly highestFloor: Metres;
  private openCavities = 0;

  constructor(shape: WavePipeShape, start: { readonly head: Metres; readonly velocity: MetresPerSecond }) {
    this.area = boreArea(shape.bore);
    this.impedance = shape.waveSpeed / GRAVITY;
    this.timeStep = shape.length / shape.reaches / shape.waveSpeed;
    this.nodes = shape.reaches + 1;
    const reach = shape.length / shape.reaches;
    const lossPerSquare = (shape.darcyFactor * reach) / (2 * GRAVITY * shape.bore);
    this.drag = lossPerSquare / (2 * this.impedance) ** 2;
    this.down = new Float64Array(this.nodes + slideRoom).fill(start.head + this.impedance * start.velocity);
    this.up = new Float64Array(this.nodes + slideRoom).fill(start.head - this.impedance * start.velocity);
    this.cavities = new Float64Array(this.nodes);
    this.floors = new Float64Array(this.nodes);
    for (let i = 0; i < this.nodes; i += 1) this.floors[i] = shape.vapourHead + shape.rise * (1 - i / shape.reaches);
    this.highestFloor = shape.vapourHead + Math.max(0, shape.rise);
  }

  /** Moves every characteristic by one node; the ones that leave the ends are lost, the ones that enter still missing. */
  advance(): void {
    const first =
      this.openCavities > 0
        ? 0
        : sweep(this.down, this.up, this.downAt, this.upAt, this.nodes, this.drag, 2 * this.highestFloor);
    if (first < this.nodes) this.sweepWithCavities(first);
    if (this.downAt === 0) {
      this.down.copyWithin(slideRoom, 0, this.nodes);
      this.downAt = slideRoom;
    }
    if (this.upAt === slideRoom) {
      this.up.copyWithin(0, slideRoom, slideRoom + this.nodes);
      this.upAt = 0;
    }
    this.downAt -= 1;
    this.upAt += 1;
  }

  /** H − (a/g) v that has come up to the inlet. */
  arrivingAtInlet(): Metres {
    return at(this.up, this.upAt);
  }

  /** H + (a/g) v that has come down to the pump. */
  arrivingAtPump(): Metres {
    return at(this.down, this.downAt + this.nodes - 1);
  }

  /** Sends H + (a/g) v down from the inlet. */
  leaveInlet(characteristic: Metres): void {
    this.down[this.downAt] = characteristic;
  }

  /** Sends H − (a/g) v up from the pump. */
  leavePump(characteristic: Metres): void {
    this.up[this.upAt + this.nodes - 1] = characteristic;
  }

  headAt(node: number): Metres {
    return (at(this.down, this.downAt + node) + at(this.up, this.upAt + node)) / 2;
  }

  velocityAt(node: number): MetresPerSecond {
    return (at(this.down, this.downAt + node) - at(this.up, this.upAt + node)) / (2 * this.impedance);
  }

  /** Total volume of the cavities along the pipe, m³. */
  cavityVolume(): number {
    return this.cavities.reduce((sum, volume) => sum + volume, 0);
  }

  /** As the plain sweep from node `first` on, with a cavity wherever the head would fall below the vapour's. */
  private sweepWithCavities(first: number): void {
    const { down, up, cavities, floors, drag } = this;
    const grow = (this.area * this.timeStep) / this.impedance;
    let open = 0;
    for (let i = first; i < this.nodes; i += 1) {
      let d = at(down, this.downAt + i);
      let u = at(up, this.upAt + i);
      const floor = at(floors, i);
      const inside = i > 0 && i < this.nodes - 1;
      if (inside && (at(cavities, i) > 0 || d + u < 2 * floor)) {
        const volume = at(cavities, i) + grow * (2 * floor - d - u);
        cavities[i] = Math.max(0, volume);
        if (volume > 0) {
          open += 1;
          const below = 2 * (floor - u);
          const above = 2 * (d - floor);
          const arrived = d;
          d = 2 * floor - u - drag * below * Math.abs(below);
          u = 2 * floor - arrived + drag * above * Math.abs(above);
          down[this.downAt + i] = d;
          up[this.upAt + i] = u;
          continue;
        }
      }
      const loss = drag * (d - u) * Math.abs(d - u);
      down[this.downAt + i] = d - loss;
      up[this.upAt + i] = u + loss;
    }
    this.openCavities = open;
  }
}

/** Takes the friction of one reach from every characteristic; stops before the first node whose heads' sum is too low. */
function sweep(
  down: Float64Array,
  up: Float64Array,
  downAt: number,
  upAt: number,
  nodes: number,
  drag: number,
  least: number,
): number {
  for (let i = 0; i < nodes; i += 1) {
    const d = down[downAt + i] as number;
    const u = up[upAt + i] as number;
    if (d + u < least) return i;
    const twice = d - u;
    const loss = drag * twice * Math.abs(twice);
    down[downAt + i] = d - loss;
    up[upAt + i] = u + loss;
  }
  return nodes;
}

/** An entry that is there by construction. */
function at(values: Float64Array, index: number): number {
  return values[index] as number;
}
