import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { risingRoot } from '../statistics/rising-root.ts';
import type { DestinationOutput } from './outputs.ts';
import { clearance, type LineState } from './run-line.ts';
import type { DestinationModel, LossLaw } from './system-model.ts';

/** Flow at the pump of one state, passed on to the delivery lines. */
export interface Drive {
  readonly flow: CubicMetresPerSecond;
  readonly fall: Metres;
  /** Efficiency of the pump at a delivery head. */
  readonly efficiencyAt: (head: Metres) => Ratio;
  readonly wasteValve: Metres;
  readonly source: Metres;
}

/** Governing level of a delivery line at a flow: the highest of outlet and high places, each with the loss up to it. */
function governing(
  destination: DestinationModel & { readonly loss: LossLaw },
  flow: CubicMetresPerSecond,
  { ground, lossFactor: k }: LineState,
): { level: Metres; loss: Metres } {
  let level = valueAt(ground, destination.node) + destination.outletHeight;
  let loss = k * destination.loss.headLoss(flow);
  for (const place of destination.highPlaces) {
    const height = valueAt(ground, place.node);
    const upTo = k * place.loss.headLoss(flow);
    if (height + upTo > level + loss) {
      level = height;
      loss = upTo;
    }
  }
  return { level, loss };
}

/**
 * Delivered flow q with q·h(q) = η Q H, h the delivery head at the pump with the friction of q.
 *
 * The left side rises with q. Never more than the pump is given, nor than a pump without losses would lift.
 */
function deliveredFlow(
  destination: DestinationModel & { readonly loss: LossLaw },
  drive: Drive,
  line: LineState,
): CubicMetresPerSecond {
  const input = drive.flow * Math.max(0, drive.fall);
  if (input <= 0) return 0;
  const headAt = (q: CubicMetresPerSecond) => {
    const { level, loss } = governing(destination, q, line);
    return level - drive.wasteValve + loss;
  };
  const headless = headAt(0);
  const most = headless * drive.flow > input ? input / headless : drive.flow;
  return risingRoot((q) => {
    const head = headAt(q);
    return q * head - drive.efficiencyAt(head) * input;
  }, most);
}

/** Least pressure head at a high place while the line runs full to its outlet; 0 where there are none. */
function crestHead(
  destination: DestinationModel & { readonly loss: LossLaw },
  q: CubicMetresPerSecond,
  line: LineState,
): Metres {
  if (destination.highPlaces.length === 0) return 0;
  const outlet = valueAt(line.ground, destination.node) + destination.outletHeight;
  return clearance(outlet + line.lossFactor * destination.loss.headLoss(q), q, destination.highPlaces, line);
}

/** Write down everything one destination's delivery line comes to. */
export function runDestination(
  destination: DestinationModel,
  drive: Drive,
  context: { readonly line: LineState; readonly write: (name: DestinationOutput, value: number) => void },
): void {
  const { line, write } = context;
  const outlet = valueAt(line.ground, destination.node) + destination.outletHeight;
  write('lift', outlet - drive.wasteValve);
  write('level-over-source', outlet - drive.source);
  const { loss } = destination;
  if (loss === null) return;
  const drawn = { ...destination, loss };
  const q = deliveredFlow(drawn, drive, line);
  const top = governing(drawn, q, line);
  const lift = top.level - drive.wasteValve;
  const head = lift + top.loss;
  const fullHead = outlet - drive.wasteValve + line.lossFactor * loss.headLoss(q);
  const backHead = destination.vented ? head : fullHead;
  write('governing-lift', lift);
  write('delivery', q);
  write('delivery-head', head);
  write('friction', top.loss);
  write('friction-share', lift > 0 ? top.loss / lift : 0);
  write('lift-over-fall', drive.fall > 0 ? head / drive.fall : 0);
  write('back-pressure-ratio', drive.fall > 0 ? backHead / drive.fall : 0);
  write('back-pressure-head', backHead);
  write('crest-head', crestHead(drawn, q, line));
}
