import { GRAVITY } from '../../hydraulics/gravity.ts';
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Ratio,
  Seconds,
  SquareMetres,
} from '../../units/quantity.ts';
import { atmosphericHead, polytropicExponent } from '../cycle/air.ts';
import { type RamFaults, soundRam } from '../cycle/ram-faults.ts';
import type { Closing, Heads, RamSystem } from '../cycle/ram-system.ts';
import { AirChamber } from './air-chamber.ts';
import { DeliveryLine, type DeliveryLineShape } from './delivery-line.ts';
import { PumpNode, valveConductance } from './pump-node.ts';
import { WasteValve } from './waste-valve.ts';
import { WavePipe } from './wave-pipe.ts';

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
class AirPocket {
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

export interface TransientSetup extends Heads {
  readonly ram: RamSystem;
  readonly closing: Closing;
  /** Air at rest; null holds the delivery head constant. */
  readonly airChamber: CubicMetres | null;
  /** A standpipe whose level moves with what comes and goes; null holds the level. */
  readonly standpipe: Standpipe | null;
  readonly reaches: number;
  /** Head at which water boils, above the waste valve's outlet; about −10.2 m at sea level. */
  readonly vapourHead: Metres;
  /** What is wrong with it; absent for a sound ram. */
  readonly faults?: RamFaults;
  /** The delivery pipe beyond the air chamber; absent, it draws evenly what arrives. */
  readonly deliveryLine?: DeliveryLineShape;
}

export interface Standpipe {
  readonly area: SquareMetres;
  readonly supply: CubicMetresPerSecond;
}

/**
 * Standpipe, drive pipe, waste valve, check valve and air chamber, stepped together through time.
 *
 * The bend's loss is taken with the entrance's. The water starts at rest with the waste valve open.
 */
export class TransientSystem {
  readonly pipe: WavePipe;
  readonly pump: PumpNode;
  readonly wasteValve: WasteValve;
  readonly chamber: AirChamber;
  /** Level in the standpipe over the waste valve's outlet. */
  level: Metres = 0;
  inletVelocity: MetresPerSecond = 0;
  private checkOpen = false;
  private sinceTurn: Seconds = 0;
  /** Cavity under the valves. */
  private cavity: CubicMetres = 0;
  private boiling = false;
  private readonly wasteOpen: number;
  private readonly checkFull: number;
  private readonly checkLag: Seconds;
  private readonly vapourHead: Metres;
  /** 4 K/2g of entrance and bend, s²/m. */
  private readonly inletLoss: number;
  private readonly standpipe: Standpipe | null;
  private readonly seatLeak: Ratio;
  private readonly bodyLeak: number;
  private readonly checkShut: number;
  private readonly pocket: AirPocket | null;
  /** Steps in which the head under the valves lay on the vapour's. */
  boilingSteps = 0;
  /** How high the level from which its heads are counted lies over the waste valve's outlet. */
  readonly datum: Metres;

  /** Heads are counted from the tail water, so that water over the waste valve needs no more than this. */
  constructor(given: TransientSetup) {
    const faults = given.faults ?? soundRam;
    const setup = overTailWater(given, faults.tailWater);
    this.datum = faults.tailWater;
    const { ram, fall, deliveryHead, vapourHead, reaches } = setup;
    this.pipe = new WavePipe({ ...ram, reaches, vapourHead, rise: fall }, { head: fall, velocity: 0 });
    this.pump = new PumpNode(this.pipe.impedance, deliveryHead, fall);
    this.wasteValve = new WasteValve(ram, setup, setup.closing, this.pipe.timeStep);
    const line = setup.deliveryLine === undefined ? null : new DeliveryLine(setup.deliveryLine);
    this.chamber = new AirChamber(deliveryHead, setup.airChamber, line);
    this.seatLeak = faults.seatLeak;
    this.bodyLeak = faults.bodyLeak * valveConductance(ram.wasteValveLoss);
    this.checkShut = faults.checkLeak * valveConductance(ram.checkValveLoss);
    this.pocket = faults.airPocket > 0 ? new AirPocket(faults.airPocket, fall) : null;
    this.level = fall;
    this.wasteOpen = valveConductance(ram.wasteValveLoss);
    this.checkFull = valveConductance(ram.checkValveLoss);
    this.checkLag = ram.checkLag;
    this.vapourHead = vapourHead;
    this.inletLoss = (4 * (ram.entranceLoss + ram.bendLoss)) / (2 * GRAVITY);
    this.standpipe = setup.standpipe;
  }

  step(): void {
    this.pipe.advance();
    this.stepInlet();
    this.stepPump();
    if (!this.wasteValve.free) this.wasteValve.columnVelocity = (this.inletVelocity + this.pump.velocity) / 2;
    this.wasteValve.move(this.pump);
    if (this.chamber.elastic) this.stepChamber();
  }

  /** Whether water can pass the check valve. */
  get checkIsOpen(): boolean {
    return this.checkOpen;
  }

  /** Quadratic with a sign: level − H = K v|v|/2g and H = C + (a/g) v. */
  private stepInlet(): void {
    const { pipe } = this;
    const { impedance } = pipe;
    const arriving = pipe.arrivingAtInlet();
    const z = this.level - arriving;
    const root = Math.sqrt(impedance * impedance + this.inletLoss * Math.abs(z));
    this.inletVelocity = (2 * z) / (impedance + root);
    pipe.leaveInlet(arriving + 2 * impedance * this.inletVelocity);
    if (this.standpipe !== null) this.moveLevel(this.standpipe);
  }

  private moveLevel(standpipe: Standpipe): void {
    const gain = standpipe.supply - this.pipe.area * this.inletVelocity;
    this.level = Math.max(0, this.level + (gain * this.pipe.timeStep) / standpipe.area);
  }

  private stepPump(): void {
    const { pipe, pump } = this;
    const arriving = pipe.arrivingAtPump();
    const { opening } = this.wasteValve;
    pump.arriving = arriving;
    pump.waste = this.wasteOpen * (opening + this.seatLeak * (1 - opening)) + this.bodyLeak;
    pump.check = this.checkOpen ? this.checkFull : this.checkShut;
    this.pocket?.soften(pump, pipe);
    if (this.boiling) pump.settle(this.vapourHead);
    else pump.solve();
    if (!this.checkOpen && pump.head > pump.chamberHead) this.openCheckValve();
    if (pump.head < this.vapourHead && this.pocket === null) {
      this.boiling = true;
      pump.settle(this.vapourHead);
    }
    pipe.leavePump(2 * pump.head - arriving);
    if (this.pocket !== null) {
      this.pocket.squeeze(pump.head);
      pump.velocity = (arriving - pump.head) / pipe.impedance;
    }
    if (this.boiling) this.stepCavity();
    if (this.checkOpen) this.moveCheckValve();
  }

  private openCheckValve(): void {
    this.checkOpen = true;
    this.sinceTurn = 0;
    this.pump.check = this.checkFull;
    this.pump.solve();
  }

  /** An open check valve shuts when the head has been below the chamber's for as long as its lag. */
  private moveCheckValve(): void {
    const { pump } = this;
    this.sinceTurn = pump.head >= pump.chamberHead ? 0 : this.sinceTurn + this.pipe.timeStep;
    if (this.sinceTurn > 0 && this.sinceTurn >= this.checkLag) this.checkOpen = false;
  }

  private stepCavity(): void {
    const { pump, pipe } = this;
    this.boilingSteps += 1;
    const gain = pump.wasteVelocity + pump.checkVelocity - pump.velocity;
    this.cavity += gain * pipe.area * pipe.timeStep;
    if (this.cavity > 0) return;
    this.cavity = 0;
    this.boiling = false;
  }

  private stepChamber(): void {
    this.chamber.take(this.pipe.area * this.pump.checkVelocity, this.pipe.timeStep);
    this.pump.chamberHead = Math.max(leastChamberHead, this.chamber.head);
  }
}

/** Head in the air chamber below which the valves take it as this: the sum for two open valves needs one above 0. */
const leastChamberHead: Metres = 0.01;

/** The same heads counted from the tail water. */
function overTailWater(setup: TransientSetup, tail: Metres): TransientSetup {
  if (tail === 0) return setup;
  const { deliveryLine: line } = setup;
  return {
    ...setup,
    fall: setup.fall - tail,
    deliveryHead: setup.deliveryHead - tail,
    vapourHead: setup.vapourHead - tail,
    ...(line === undefined ? {} : { deliveryLine: { ...line, staticHead: line.staticHead - tail } }),
  };
}
