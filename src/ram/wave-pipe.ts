import { GRAVITY } from '../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds, SquareMetres } from '../units/quantity.ts';
import { boreArea } from './ram-system.ts';
import { lanes, slideRoom } from './wave-lanes.ts';

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
  /** H − (a/g) v that has come up to the inlet in this step. */
  arrivingAtInlet: Metres = 0;
  /** H + (a/g) v that has come down to the pump in this step. */
  arrivingAtPump: Metres = 0;
  /** Where the characteristics rest while another pipe is on the lanes. */
  private readonly restingDown: Float64Array;
  private readonly restingUp: Float64Array;
  private downAt = slideRoom;
  private upAt = 0;
  private readonly restingCavities: Float64Array;
  private readonly twiceFloors: Float64Array;
  private readonly rules: Float64Array;
  /** First node with an open cavity; the number of nodes when there is none. */
  private firstCavity: number;

  constructor(shape: WavePipeShape, start: { readonly head: Metres; readonly velocity: MetresPerSecond }) {
    this.area = boreArea(shape.bore);
    this.impedance = shape.waveSpeed / GRAVITY;
    this.timeStep = shape.length / shape.reaches / shape.waveSpeed;
    this.nodes = shape.reaches + 1;
    this.firstCavity = this.nodes;
    this.restingDown = new Float64Array(this.nodes).fill(start.head + this.impedance * start.velocity);
    this.restingUp = new Float64Array(this.nodes).fill(start.head - this.impedance * start.velocity);
    this.restingCavities = new Float64Array(this.nodes);
    this.twiceFloors = new Float64Array(this.nodes);
    for (let i = 0; i < this.nodes; i += 1)
      this.twiceFloors[i] = 2 * (shape.vapourHead + shape.rise * (1 - i / shape.reaches));
    this.rules = new Float64Array([
      this.drag(shape),
      2 * (shape.vapourHead + Math.max(0, shape.rise)),
      (this.area * this.timeStep) / this.impedance,
    ]);
  }

  /** Moves every characteristic by one node; the ones that leave the ends are lost, the ones that enter still missing. */
  advance(): void {
    this.takeLanes();
    const { downAt, upAt, nodes } = this;
    const done = lanes.sweep(downAt, upAt, this.firstCavity);
    if (done < nodes) this.firstCavity = lanes.sweepBoiling(downAt, upAt, nodes, done);
    if (this.downAt === 0) this.slideBack();
    this.downAt -= 1;
    this.upAt += 1;
    this.arrivingAtInlet = lanes.up[this.upAt] as number;
    this.arrivingAtPump = lanes.down[this.downAt + nodes - 1] as number;
  }

  /** Sends H + (a/g) v down from the inlet. */
  leaveInlet(characteristic: Metres): void {
    this.takeLanes();
    lanes.down[this.downAt] = characteristic;
  }

  /** Sends H − (a/g) v up from the pump. */
  leavePump(characteristic: Metres): void {
    this.takeLanes();
    lanes.up[this.upAt + this.nodes - 1] = characteristic;
  }

  headAt(node: number): Metres {
    this.takeLanes();
    return ((lanes.down[this.downAt + node] as number) + (lanes.up[this.upAt + node] as number)) / 2;
  }

  velocityAt(node: number): MetresPerSecond {
    this.takeLanes();
    return ((lanes.down[this.downAt + node] as number) - (lanes.up[this.upAt + node] as number)) / (2 * this.impedance);
  }

  /** Total volume of the cavities along the pipe, m³. */
  cavityVolume(): number {
    this.takeLanes();
    return lanes.cavities.subarray(0, this.nodes).reduce((sum, volume) => sum + volume, 0);
  }

  /** Head lost on a reach is this times d|d|, d = down − up = 2 (a/g) v. */
  private drag(shape: WavePipeShape): number {
    const reach = shape.length / shape.reaches;
    const lossPerSquare = (shape.darcyFactor * reach) / (2 * GRAVITY * shape.bore);
    return lossPerSquare / (2 * this.impedance) ** 2;
  }

  private takeLanes(): void {
    if (onLanes !== this) this.moveOntoLanes();
  }

  private moveOntoLanes(): void {
    onLanes?.leaveLanes();
    this.downAt = slideRoom;
    this.upAt = 0;
    lanes.down.set(this.restingDown, this.downAt);
    lanes.up.set(this.restingUp, this.upAt);
    lanes.cavities.set(this.restingCavities);
    lanes.twiceFloors.set(this.twiceFloors);
    lanes.rules.set(this.rules);
    onLanes = this;
  }

  private leaveLanes(): void {
    this.restingDown.set(lanes.down.subarray(this.downAt, this.downAt + this.nodes));
    this.restingUp.set(lanes.up.subarray(this.upAt, this.upAt + this.nodes));
    this.restingCavities.set(lanes.cavities.subarray(0, this.nodes));
  }

  /** Both windows have come to the far end of their lanes in the same step. */
  private slideBack(): void {
    lanes.down.copyWithin(slideRoom, 0, this.nodes);
    lanes.up.copyWithin(0, this.upAt, this.upAt + this.nodes);
    this.downAt = slideRoom;
    this.upAt = 0;
  }
}
