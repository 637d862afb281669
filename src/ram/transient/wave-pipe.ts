import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds, SquareMetres } from '../../units/quantity.ts';
import { boreArea } from '../cycle/ram-system.ts';
import { lanes, mostNodes, rule } from './wave-lanes.ts';

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

/** A pair of steps needs nodes between those beside the ends. */
const fewestReaches = 4;

/** The pipe whose characteristics are on the lanes now. */
let onLanes: WavePipe | null = null;

/**
 * Pressure waves in the drive pipe by the method of characteristics.
 *
 * Kept at each node are the two characteristics, down = H + (a/g) v and up = H − (a/g) v, which in one time step L/(n a)
 * move one node down or up the pipe and lose f Δx v|v|/2gD on the way. Where the pressure would fall below the vapour
 * pressure a cavity opens at the node and takes up the difference of the flows.
 *
 * A step: `advance`, then both ends answer with `leaveInlet` and `leavePump` before any other pipe steps. Steps are made in pairs: the first only looks
 * what arrives at the ends, the second sweeps the pipe for both, as long as no cavity is near; the numbers are the same.
 * Range: friction as in steady flow; a whole number of reaches, at least four.
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
  /** Where the half of the lanes starts that holds this pipe. */
  private from = 0;
  /** Whether the first step of a pair is made: the lanes are one step behind, what the ends sent out is in the rules. */
  private between = false;
  private readonly restingCavities: Float64Array;
  private readonly twiceFloors: Float64Array;
  private readonly rules: Float64Array;
  /** First node at which the last single step found little head or a cavity; the number of nodes when none. */
  private firstLow: number;

  constructor(shape: WavePipeShape, start: { readonly head: Metres; readonly velocity: MetresPerSecond }) {
    if (!(shape.reaches >= fewestReaches && shape.reaches <= mostNodes - 2)) {
      throw new RangeError(`found ${shape.reaches} reaches, expected ${fewestReaches} to ${mostNodes - 2}`);
    }
    this.area = boreArea(shape.bore);
    this.impedance = shape.waveSpeed / GRAVITY;
    this.timeStep = shape.length / shape.reaches / shape.waveSpeed;
    this.nodes = shape.reaches + 1;
    this.firstLow = this.nodes;
    const down = start.head + this.impedance * start.velocity;
    const up = start.head - this.impedance * start.velocity;
    this.restingDown = new Float64Array(this.nodes).fill(down);
    this.restingUp = new Float64Array(this.nodes).fill(up);
    this.restingCavities = new Float64Array(this.nodes);
    this.twiceFloors = new Float64Array(this.nodes);
    for (let i = 0; i < this.nodes; i += 1)
      this.twiceFloors[i] = 2 * (shape.vapourHead + shape.rise * (1 - i / shape.reaches));
    const least = 2 * (shape.vapourHead + Math.max(0, shape.rise));
    const grow = (this.area * this.timeStep) / this.impedance;
    const ease = (2 * Math.max(0, shape.rise)) / shape.reaches;
    this.rules = new Float64Array([this.drag(shape), least, grow, down, up, up, down, ease]);
  }

  /** Moves every characteristic by one node; the ones that leave the ends are lost, the ones that enter still missing. */
  advance(): void {
    this.takeLanes();
    if (this.between) this.advanceSecond();
    else if (this.firstLow === this.nodes && lanes.lookAhead(this.from, this.nodes)) this.between = true;
    else this.advanceBoiling();
  }

  private advanceSecond(): void {
    this.between = false;
    const to = mostNodes - this.from;
    if (lanes.sweepPair(this.from, to, this.nodes)) {
      this.from = to;
      return;
    }
    this.sweepBoiling();
    this.advanceBoiling();
  }

  private advanceBoiling(): void {
    lanes.place(this.from, this.nodes);
    this.sweepBoiling();
  }

  private sweepBoiling(): void {
    const to = mostNodes - this.from;
    this.firstLow = lanes.sweepBoiling(this.from, to, this.nodes, this.firstLow);
    this.from = to;
  }

  /** Makes the first step of a pair good by itself, and puts what the ends sent out on the lanes. */
  private catchUp(): void {
    this.takeLanes();
    if (this.between) this.sweepBoiling();
    this.between = false;
    lanes.place(this.from, this.nodes);
  }

  /** H − (a/g) v that has come up to the inlet in this step. */
  arrivingAtInlet(): Metres {
    return lanes.rules[rule.toInlet] as number;
  }

  /** H + (a/g) v that has come down to the pump in this step. */
  arrivingAtPump(): Metres {
    return lanes.rules[rule.toPump] as number;
  }

  /** Sends H + (a/g) v down from the inlet. */
  leaveInlet(characteristic: Metres): void {
    lanes.rules[rule.fromInlet] = characteristic;
  }

  /** Sends H − (a/g) v up from the pump. */
  leavePump(characteristic: Metres): void {
    lanes.rules[rule.fromPump] = characteristic;
  }

  headAt(node: number): Metres {
    this.catchUp();
    return ((lanes.down[this.from + node] as number) + (lanes.up[this.from + node] as number)) / 2;
  }

  velocityAt(node: number): MetresPerSecond {
    this.catchUp();
    const twice = (lanes.down[this.from + node] as number) - (lanes.up[this.from + node] as number);
    return twice / (2 * this.impedance);
  }

  /** Total volume of the cavities along the pipe, m³. */
  cavityVolume(): number {
    this.catchUp();
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
    this.from = 0;
    lanes.down.set(this.restingDown);
    lanes.up.set(this.restingUp);
    lanes.cavities.set(this.restingCavities);
    lanes.twiceFloors.set(this.twiceFloors);
    lanes.rules.set(this.rules);
    onLanes = this;
  }

  private leaveLanes(): void {
    this.catchUp();
    const end = this.from + this.nodes;
    this.restingDown.set(lanes.down.subarray(this.from, end));
    this.restingUp.set(lanes.up.subarray(this.from, end));
    this.restingCavities.set(lanes.cavities.subarray(0, this.nodes));
    for (let i = rule.fromInlet; i <= rule.toPump; i += 1) this.rules[i] = lanes.rules[i] as number;
  }
}
