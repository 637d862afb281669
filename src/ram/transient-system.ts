import { GRAVITY } from '../hydraulics/gravity.ts';
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Seconds,
  SquareMetres,
} from '../units/quantity.ts';
import { AirChamber } from './air-chamber.ts';
import {
  headBehindOneValve,
  headBetweenValves,
  orificeVelocity,
  type PumpValves,
  signedRoot,
  valveConductance,
} from './pump-node.ts';
import type { Closing, Heads, RamSystem } from './ram-system.ts';
import { WasteValve } from './waste-valve.ts';
import { WavePipe } from './wave-pipe.ts';

export interface TransientSetup extends Heads {
  readonly ram: RamSystem;
  readonly closing: Closing;
  /** Air at rest; null holds the delivery head constant. */
  readonly airChamber: CubicMetres | null;
  /** A standpipe whose level moves with what comes and goes; null holds the level. */
  readonly standpipe: { readonly area: SquareMetres; readonly supply: CubicMetresPerSecond } | null;
  readonly reaches: number;
  /** Head at which water boils, above the waste valve's outlet; about −10.2 m at sea level. */
  readonly vapourHead: Metres;
}

/**
 * Standpipe, drive pipe, waste valve, check valve and air chamber, stepped together through time.
 *
 * The bend's loss is taken with the entrance's. The water starts at rest with the waste valve open.
 */
export class TransientSystem {
  readonly pipe: WavePipe;
  readonly wasteValve: WasteValve;
  readonly chamber: AirChamber;
  /** Level in the standpipe over the waste valve's outlet. */
  level: Metres;
  /** Head under the valves. */
  pumpHead: Metres;
  /** Velocity at the lower end of the drive pipe. */
  pumpVelocity: MetresPerSecond = 0;
  inletVelocity: MetresPerSecond = 0;
  /** Velocity through the check valve, as if in the drive pipe. */
  checkVelocity: MetresPerSecond = 0;
  wasteVelocity: MetresPerSecond = 0;
  /** Whether the waste valve has come to its seat in this step. */
  closed = false;
  private checkOpen = false;
  private sinceTurn: Seconds = 0;
  private cavity: CubicMetres = 0;
  private readonly valves: PumpValves = { waste: 0, check: 0 };
  private readonly wasteOpen: number;
  private readonly checkFull: number;
  private readonly inletLoss: number;
  private readonly setup: TransientSetup;

  constructor(setup: TransientSetup) {
    const { ram, fall, vapourHead, reaches } = setup;
    this.setup = setup;
    this.pipe = new WavePipe({ ...ram, reaches, vapourHead, rise: fall }, { head: fall, velocity: 0 });
    this.wasteValve = new WasteValve(ram, setup, setup.closing);
    this.chamber = new AirChamber(setup.deliveryHead, setup.airChamber);
    this.level = fall;
    this.pumpHead = fall;
    this.wasteOpen = valveConductance(ram.wasteValveLoss);
    this.checkFull = valveConductance(ram.checkValveLoss);
    this.inletLoss = (ram.entranceLoss + ram.bendLoss) / (2 * GRAVITY);
  }

  step(): void {
    this.pipe.advance();
    this.stepInlet();
    this.stepPump();
    const dt = this.pipe.timeStep;
    this.closed = this.wasteValve.move(this.pumpHead, this.pumpVelocity, dt);
    this.chamber.take(this.pipe.area * this.checkVelocity, dt);
  }

  private stepInlet(): void {
    const { pipe } = this;
    const arriving = pipe.arrivingAtInlet();
    this.inletVelocity = orificeVelocity(this.level - arriving, pipe.impedance, this.inletLoss);
    pipe.leaveInlet(arriving + 2 * pipe.impedance * this.inletVelocity);
    const standpipe = this.setup.standpipe;
    if (standpipe === null) return;
    const gain = standpipe.supply - pipe.area * this.inletVelocity;
    this.level = Math.max(0, this.level + (gain * pipe.timeStep) / standpipe.area);
  }

  private stepPump(): void {
    const { pipe, valves } = this;
    const arriving = pipe.arrivingAtPump();
    valves.waste = this.wasteOpen * this.wasteValve.opening;
    valves.check = this.checkOpen ? this.checkFull : 0;
    this.pumpHead = this.pumpHeadFor(arriving);
    this.pumpVelocity = (arriving - this.pumpHead) / pipe.impedance;
    this.wasteVelocity = valves.waste * signedRoot(this.pumpHead);
    this.checkVelocity = valves.check * signedRoot(this.pumpHead - this.chamber.head);
    if (this.cavity > 0) {
      const leaving = this.wasteVelocity + this.checkVelocity;
      this.cavity = Math.max(0, this.cavity + (leaving - this.pumpVelocity) * pipe.area * pipe.timeStep);
    }
    pipe.leavePump(2 * this.pumpHead - arriving);
    this.moveCheckValve();
  }

  /** Head under the valves for an arriving characteristic; opens the check valve or a cavity where it must. */
  private pumpHeadFor(arriving: Metres): Metres {
    const { valves, setup } = this;
    if (this.cavity > 0) return setup.vapourHead;
    let head = this.headWith(arriving);
    if (!this.checkOpen && head > this.chamber.head) {
      this.checkOpen = true;
      this.sinceTurn = 0;
      valves.check = this.checkFull;
      head = this.headWith(arriving);
    }
    if (head >= setup.vapourHead) return head;
    this.cavity = Number.MIN_VALUE;
    return setup.vapourHead;
  }

  private headWith(arriving: Metres): Metres {
    const { valves, chamber } = this;
    const impedance = this.pipe.impedance;
    if (valves.check === 0) return headBehindOneValve(arriving, impedance, valves.waste);
    if (valves.waste === 0) return chamber.head + headBehindOneValve(arriving - chamber.head, impedance, valves.check);
    return headBetweenValves(arriving, impedance, valves, chamber.head);
  }

  /** An open check valve shuts when the head has been below the chamber's for as long as its lag. */
  private moveCheckValve(): void {
    if (!this.checkOpen) return;
    if (this.pumpHead >= this.chamber.head) {
      this.sinceTurn = 0;
      return;
    }
    this.sinceTurn += this.pipe.timeStep;
    if (this.sinceTurn >= this.setup.ram.checkLag) this.checkOpen = false;
  }
}
