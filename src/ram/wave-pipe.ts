import { GRAVITY } from '../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds, SquareMetres } from '../units/quantity.ts';
import { boreArea } from './ram-system.ts';
import { downLane, slideRoom, sweepLanes, upLane } from './wave-lanes.ts';

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

/** The pipe whose characteristics are on the lanes now. */
let onLanes: WavePipe | null = null;

/**
 * Pressure waves in the drive pipe by the method of characteristics.
 *
 * Kept at each node are the two characteristics, down = H + (a/g) v and up = H − (a/g) v, which in one time step L/(n a)
 * move one node down or up the pipe and lose f Δx v|v|/2gD on the way. They lie in windows that slide along two lanes, so
 * that moving them costs nothing and a step is two reads, two writes and a friction term. Pipes take turns on the lanes. Where the pressure
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
  /** Where the characteristics rest while another pipe is on the lanes. */
  private readonly restingDown: Float64Array;
  private readonly restingUp: Float64Array;
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
    this.restingDown = new Float64Array(this.nodes).fill(start.head + this.impedance * start.velocity);
    this.restingUp = new Float64Array(this.nodes).fill(start.head - this.impedance * start.velocity);
    this.cavities = new Float64Array(this.nodes);
    this.floors = new Float64Array(this.nodes);
    for (let i = 0; i < this.nodes; i += 1) this.floors[i] = shape.vapourHead + shape.rise * (1 - i / shape.reaches);
    this.highestFloor = shape.vapourHead + Math.max(0, shape.rise);
  }

  /** Moves every characteristic by one node; the ones that leave the ends are lost, the ones that enter still missing. */
  advance(): void {
    this.takeLanes();
    const { nodes } = this;
    const plain = this.openCavities === 0;
    const done = plain ? sweepLanes(this.downAt, this.upAt, nodes, this.drag, 2 * this.highestFloor) : 0;
    if (done < nodes) this.sweepWithCavities(done);
    if (this.downAt === 0) this.slideBack();
    this.downAt -= 1;
    this.upAt += 1;
  }

  /** H − (a/g) v that has come up to the inlet. */
  arrivingAtInlet(): Metres {
    this.takeLanes();
    return upLane[this.upAt] as number;
  }

  /** H + (a/g) v that has come down to the pump. */
  arrivingAtPump(): Metres {
    this.takeLanes();
    return downLane[this.downAt + this.nodes - 1] as number;
  }

  /** Sends H + (a/g) v down from the inlet. */
  leaveInlet(characteristic: Metres): void {
    this.takeLanes();
    downLane[this.downAt] = characteristic;
  }

  /** Sends H − (a/g) v up from the pump. */
  leavePump(characteristic: Metres): void {
    this.takeLanes();
    upLane[this.upAt + this.nodes - 1] = characteristic;
  }

  headAt(node: number): Metres {
    this.takeLanes();
    return ((downLane[this.downAt + node] as number) + (upLane[this.upAt + node] as number)) / 2;
  }

  velocityAt(node: number): MetresPerSecond {
    this.takeLanes();
    return ((downLane[this.downAt + node] as number) - (upLane[this.upAt + node] as number)) / (2 * this.impedance);
  }

  /** Total volume of the cavities along the pipe, m³. */
  cavityVolume(): number {
    return this.cavities.reduce((sum, volume) => sum + volume, 0);
  }

  /** As the plain sweep from node `first` on, with a cavity wherever the head would fall below the vapour's. */
  private sweepWithCavities(first: number): void {
    const { cavities, floors, drag, downAt, upAt } = this;
    const grow = (this.area * this.timeStep) / this.impedance;
    const last = this.nodes - 1;
    let open = 0;
    for (let i = first; i <= last; i += 1) {
      const d = downLane[downAt + i] as number;
      const u = upLane[upAt + i] as number;
      const twiceFloor = 2 * (floors[i] as number);
      const before = cavities[i] as number;
      const boils = i > 0 && i < last && (before > 0 || d + u < twiceFloor);
      const volume = boils ? Math.max(0, before + grow * (twiceFloor - d - u)) : 0;
      cavities[i] = volume;
      if (volume > 0) open += 1;
      const leavingDown = volume > 0 ? twiceFloor - u : d;
      const leavingUp = volume > 0 ? twiceFloor - d : u;
      downLane[downAt + i] = leavingDown - drag * squared(leavingDown - u);
      upLane[upAt + i] = leavingUp + drag * squared(d - leavingUp);
    }
    this.openCavities = open;
  }

  private takeLanes(): void {
    if (onLanes === this) return;
    onLanes?.leaveLanes();
    this.downAt = slideRoom;
    this.upAt = 0;
    downLane.set(this.restingDown, this.downAt);
    upLane.set(this.restingUp, this.upAt);
    onLanes = this;
  }

  private leaveLanes(): void {
    this.restingDown.set(downLane.subarray(this.downAt, this.downAt + this.nodes));
    this.restingUp.set(upLane.subarray(this.upAt, this.upAt + this.nodes));
  }

  /** Both windows have come to the far end of their lanes in the same step. */
  private slideBack(): void {
    downLane.copyWithin(slideRoom, 0, this.nodes);
    upLane.copyWithin(0, this.upAt, this.upAt + this.nodes);
    this.downAt = slideRoom;
    this.upAt = 0;
  }
}

function squared(twice: number): number {
  return twice * Math.abs(twice);
}
