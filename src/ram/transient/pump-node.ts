import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';

/** √(2g/K): velocity in the drive pipe for each root of a metre that a valve of this loss coefficient takes. */
export function valveConductance(loss: Ratio): number {
  return Math.sqrt((2 * GRAVITY) / loss);
}

/** s(z) = sign(z) √|z|: what an orifice passes either way. */
export function signedRoot(z: number): number {
  return z < 0 ? -Math.sqrt(-z) : Math.sqrt(z);
}

/**
 * Signed root u of the head before an orifice at the end of a pipe: u|u| + l u = z.
 *
 * u = 2 z/(l + √(l² + 4 |z|)), which never cancels; 0 where there is neither head nor conductance.
 * z arriving characteristic over the head beyond, m; l = (a/g) c, c conductance of the orifice.
 */
export function orificeRoot(z: Metres, linear: number): number {
  const sum = linear + Math.sqrt(linear * linear + 4 * Math.abs(z));
  return sum > 0 ? (2 * z) / sum : 0;
}

/**
 * The lower end of the drive pipe between the waste valve and the check valve: C − H = (a/g)(c_w s(H) + c_c s(H − h)).
 *
 * With one valve open it is a quadratic with a sign, solved in closed form; with both, Newton's method. Numbers stay in
 * fields, and start as numbers, so that a step allocates nothing.
 */
export class PumpNode {
  /** C: H + (a/g) v come down the pipe, m. */
  arriving: Metres = 0;
  /** h: head in the air chamber, m. */
  chamberHead: Metres = 0;
  /** c_w, c_c: conductances as the valves stand; 0 when shut. */
  waste = 0;
  check = 0;
  /** H: head under the valves, m. */
  head: Metres = 0;
  velocity: MetresPerSecond = 0;
  /** Velocities through the valves, as if in the drive pipe. */
  wasteVelocity: MetresPerSecond = 0;
  checkVelocity: MetresPerSecond = 0;
  /** a/g of the pipe, or less where air under the valves gives way too. */
  impedance: Seconds;

  constructor(impedance: Seconds, chamberHead: Metres, head: Metres) {
    this.impedance = impedance;
    this.chamberHead = chamberHead;
    this.head = head;
  }

  /** Finds the head and the velocities from what arrives and how the valves stand. */
  solve(): void {
    if (this.check > 0 && this.waste > 0) this.settle(headBetweenValves(this, this.impedance));
    else this.solveOneValve();
  }

  /** The velocities that belong to a head known otherwise. */
  settle(head: Metres): void {
    this.head = head;
    this.velocity = (this.arriving - head) / this.impedance;
    this.wasteVelocity = this.waste === 0 ? 0 : this.waste * signedRoot(head);
    this.checkVelocity = this.check === 0 ? 0 : this.check * signedRoot(head - this.chamberHead);
  }

  /** The quadratic of `orificeRoot`, written out since a call would put its answer on the heap. */
  private solveOneValve(): void {
    const wasteOnly = this.check === 0;
    const conductance = wasteOnly ? this.waste : this.check;
    const beyond = wasteOnly ? 0 : this.chamberHead;
    const z = this.arriving - beyond;
    const linear = this.impedance * conductance;
    const sum = linear + Math.sqrt(linear * linear + 4 * Math.abs(z));
    const u = sum > 0 ? (2 * z) / sum : 0;
    const velocity = conductance * u;
    this.head = beyond + u * Math.abs(u);
    this.velocity = velocity;
    this.wasteVelocity = wasteOnly ? velocity : 0;
    this.checkVelocity = wasteOnly ? 0 : velocity;
  }
}

/** Newton steps after which the root is taken as it is; four are usual. */
const mostSteps = 40;
/** A step this small against the root's own size ends the search. */
const smallStep = 1e-13;

/** What is known at the pump when both valves are open. */
export type OpenValves = Pick<PumpNode, 'arriving' | 'chamberHead' | 'waste' | 'check'>;

/**
 * The head at the pump with both valves open: C − H = (a/g)(c_w s(H) + c_c s(H − h)).
 *
 * Both roots have a kink, at H = 0 and at H = h. The unknown is the signed root of whichever lies nearer, in which the
 * equation is smooth and falls steadily, and Newton's method finds it in a few steps.
 * Range: h > 0, c_c > 0, c_w ≥ 0.
 */
export function headBetweenValves(node: OpenValves, impedance: Seconds): Metres {
  const { arriving, chamberHead, waste, check } = node;
  const edge = Math.sqrt(chamberHead / 2);
  const nearCheck = arriving - chamberHead / 2 > impedance * (waste - check) * edge;
  const beyond = nearCheck ? chamberHead : 0;
  const z = arriving - beyond;
  const linear = impedance * (nearCheck ? check : waste);
  const far = impedance * (nearCheck ? waste : check);
  const offset = nearCheck ? chamberHead : -chamberHead;
  const least = nearCheck ? -edge : Number.NEGATIVE_INFINITY;
  const most = nearCheck ? Number.POSITIVE_INFINITY : edge;
  let u = Math.min(most, Math.max(least, orificeRoot(z, linear)));
  for (let step = 0; step < mostSteps; step += 1) {
    const size = Math.abs(u);
    const root = signedRoot(u * size + offset);
    const error = z - u * size - linear * u - far * root;
    const slope = 2 * size + linear + (far * size) / Math.abs(root);
    const next = Math.min(most, Math.max(least, u + error / slope));
    const change = next - u;
    u = next;
    if (Math.abs(change) <= smallStep * (1 + size)) break;
  }
  return beyond + u * Math.abs(u);
}
