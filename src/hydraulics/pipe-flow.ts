import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio, SquareMetresPerSecond } from '../units/quantity.ts';
import { colebrookReynolds, roughTerm } from './colebrook.ts';
import { frictionLaw } from './friction-factor.ts';
import { GRAVITY } from './gravity.ts';
import {
  LAMINAR_END,
  LAMINAR_FACTOR,
  type TransitionLaw,
  TURBULENT_START,
  transitionLaw,
  transitionReynolds,
} from './transition-flow.ts';

/** A full pipe and the water in it. */
export interface PipeAbout {
  readonly bore: Metres;
  readonly length: Metres;
  readonly roughness: Metres;
  /** Sum of local loss coefficients, on v²/2g. */
  readonly k: Ratio;
  /** Kinematic viscosity. */
  readonly viscosity: SquareMetresPerSecond;
}

/** A pipe prepared for many flows; loss has the sign of its flow. */
export interface PipeFlow {
  /** Friction and local losses together. */
  headLoss(flow: CubicMetresPerSecond): Metres;
  /** The flow that loses this head: the inverse of `headLoss`. */
  flowFor(head: Metres): CubicMetresPerSecond;
}

/**
 * Head lost along a full pipe.
 *
 * h = (f L / D + K) v² / 2g, written in the Reynolds number Re = 4 q / (π D ν) as h = A f Re² + B Re² with
 * A = L ν² / (2 g D³), B = K ν² / (2 g D²), so that nothing is divided by a flow of zero.
 *
 * h m; f Darcy factor; L, D length and bore, m; K loss coefficients; v, q mean velocity m/s and flow m³/s; ν m²/s.
 * Source: Darcy-Weisbach, as in L. F. Moody, Friction factors for pipe flow, Transactions of the ASME 66, 1944.
 */
export function pipeFlow(pipe: PipeAbout): PipeFlow {
  const { bore, length, roughness, k, viscosity } = checked(pipe);
  const perReynolds = (Math.PI * bore * viscosity) / 4;
  const perSquare = (k * viscosity * viscosity) / (2 * GRAVITY * bore * bore);
  const perFriction = (length * viscosity * viscosity) / (2 * GRAVITY * bore ** 3);
  const friction = frictionLaw(roughness / bore);
  const rough = roughTerm(roughness / bore);
  const loss = (reynolds: number): number => perFriction * friction(reynolds) + perSquare * reynolds * reynolds;
  const turbulentHead = loss(TURBULENT_START);
  let between: TransitionLaw | null = null;

  return {
    headLoss(flow) {
      if (!Number.isFinite(flow)) throw new RangeError(`found flow ${flow}, expected a finite number`);
      return Math.sign(flow) * loss(Math.abs(flow) / perReynolds);
    },
    flowFor(head) {
      if (!Number.isFinite(head)) throw new RangeError(`found head ${head}, expected a finite number`);
      if (perFriction + perSquare === 0) throw new RangeError('found a pipe without length or losses, expected either');
      const size = Math.abs(head);
      if (size === 0) return 0;
      return Math.sign(head) * perReynolds * reynoldsFor(size);
    },
  };

  function reynoldsFor(head: number): number {
    if (head >= turbulentHead) return colebrookReynolds({ rough, perFriction, perSquare, head });
    const linear = LAMINAR_FACTOR * perFriction;
    const laminar = (2 * head) / (linear + Math.sqrt(linear * linear + 4 * perSquare * head));
    if (laminar <= LAMINAR_END) return laminar;
    between ??= transitionLaw(rough);
    return transitionReynolds({ law: between, perFriction, perSquare, head });
  }
}

function checked(pipe: PipeAbout): PipeAbout {
  const { bore, length, roughness, k, viscosity } = pipe;
  const positive = bore > 0 && viscosity > 0;
  const notNegative = length >= 0 && roughness >= 0 && k >= 0;
  const finite = [bore, length, roughness, k, viscosity].every(Number.isFinite);
  if (positive && notNegative && finite) return pipe;
  throw new RangeError(
    `found bore ${bore}, length ${length}, roughness ${roughness}, k ${k}, viscosity ${viscosity}; ` +
      'expected a positive bore and viscosity and nothing negative',
  );
}

/** Mean velocity of a flow in a full pipe: v = 4 q / (π D²). */
export function velocity(at: { readonly flow: CubicMetresPerSecond; readonly bore: Metres }): MetresPerSecond {
  return (4 * at.flow) / (Math.PI * at.bore * at.bore);
}

/** Reynolds number Re = |v| D / ν: inertia over viscosity. */
export function reynoldsNumber(at: {
  readonly velocity: MetresPerSecond;
  readonly bore: Metres;
  readonly viscosity: SquareMetresPerSecond;
}): Ratio {
  return (Math.abs(at.velocity) * at.bore) / at.viscosity;
}
