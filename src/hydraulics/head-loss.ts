import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio } from '../units/quantity.ts';
import { frictionFactor } from './friction-factor.ts';
import { GRAVITY } from './gravity.ts';
import { type PipeAbout, pipeFlow, reynoldsNumber, velocity } from './pipe-flow.ts';

/** What one flow does in one pipe. */
export interface FlowState {
  readonly flow: CubicMetresPerSecond;
  readonly velocity: MetresPerSecond;
  readonly reynolds: Ratio;
  /** Darcy factor; null without flow. */
  readonly frictionFactor: Ratio | null;
  /** Friction along the wall. */
  readonly friction: Metres;
  /** Fittings, entrance and exit. */
  readonly local: Metres;
  /** Both together, with the sign of the flow. */
  readonly headLoss: Metres;
}

/** The head a flow loses in a pipe, with its parts. */
export function headLoss(question: PipeAbout & { readonly flow: CubicMetresPerSecond }): FlowState {
  return stateOf(question, question.flow, pipeFlow(question).headLoss(question.flow));
}

/** The flow that a head drives through a pipe when all of it is lost there. */
export function flowForHead(question: PipeAbout & { readonly head: Metres }): FlowState {
  return stateOf(question, pipeFlow(question).flowFor(question.head), question.head);
}

function stateOf(pipe: PipeAbout, flow: CubicMetresPerSecond, headLoss: Metres): FlowState {
  const speed = velocity({ flow, bore: pipe.bore });
  const reynolds = reynoldsNumber({ velocity: speed, bore: pipe.bore, viscosity: pipe.viscosity });
  const local = localLoss({ k: pipe.k, velocity: speed });
  const factor = reynolds > 0 ? frictionFactor({ reynolds, relativeRoughness: pipe.roughness / pipe.bore }) : null;
  return { flow, velocity: speed, reynolds, frictionFactor: factor, friction: headLoss - local, local, headLoss };
}

/** Head lost at a fitting: h = K v² / 2g, with the sign of the velocity. */
export function localLoss(at: { readonly k: Ratio; readonly velocity: MetresPerSecond }): Metres {
  return (at.k * at.velocity * Math.abs(at.velocity)) / (2 * GRAVITY);
}
