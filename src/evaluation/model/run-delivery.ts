import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { risingRoot } from '../statistics/rising-root.ts';
import type { DestinationOutput } from './outputs.ts';
import { clearance, flowPast, type LineState } from './run-line.ts';
import type { DestinationModel, LossLaw } from './system-model.ts';

/** Flow at the pump of one state, passed on to the delivery lines. */
export interface Drive {
  readonly flow: CubicMetresPerSecond;
  readonly fall: Metres;
  /** Efficiency of the pump at a delivery head. */
  readonly efficiencyAt: (head: Metres) => Ratio;
  readonly wasteValve: Metres;
  readonly source: Metres;
  /** Whether source, supply line and fall let it beat. */
  readonly beats: boolean;
  /** Whether nothing delivered means that it does not beat: so says the model of a ram by its parts. */
  readonly stopsDry: boolean;
  /** Delivery head that the pressure wave does not reach. */
  readonly reach: Metres;
  /** Delivery head with the line full below which the waste valve does not fall open again. */
  readonly leastPushBack: Metres;
}

/**
 * Share of the beat's work that is left when the wave reaches only a little above the delivery head:
 *
 * s = 4 (μ − 1) / μ² for 1 < μ < 2, 0 below, 1 above; μ = (h_max − H) / (h − H), so that v_c = μ Δv.
 *
 * One step of delivery takes 2 Δv from the column and lifts 2 A L Δv (μ − 1) Δv / a of water against h − H; the column held
 * A L v_c² / 2. From 2 on further steps take what is left, to within a ninth. H fall, h delivery head, h_max highest head, m.
 * Source: derived from the frictionless delivery of the cycle (docs/ram-model.md).
 */
export function reachShare(reach: Metres, fall: Metres, head: Metres): Ratio {
  if (reach === Number.POSITIVE_INFINITY || head <= fall) return 1;
  const steps = (reach - fall) / (head - fall);
  if (steps <= 1) return 0;
  return steps >= 2 ? 1 : (4 * (steps - 1)) / steps ** 2;
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
    return q * head - drive.efficiencyAt(head) * reachShare(drive.reach, drive.fall, head) * input;
  }, most);
}

type DrawnDestination = DestinationModel & { readonly loss: LossLaw };

const isDrawn = (d: DestinationModel): d is DrawnDestination => d.loss !== null;

/** What a line takes at a head at the pump: no more than its outlet and its high places let by. */
function flowAt(
  destination: DrawnDestination,
  drive: Drive,
  { head, line }: { head: Metres; line: LineState },
): CubicMetresPerSecond {
  const level = drive.wasteValve + head;
  const outlet = valueAt(line.ground, destination.node) + destination.outletHeight;
  const free = destination.loss.flowFor(Math.max(0, level - outlet) / line.lossFactor);
  return Math.min(free, flowPast(level, destination.highPlaces, line));
}

/**
 * What each of several kept tanks gets of one pump with all their lines open: one head h at the pump with
 *
 * h Σ qᵢ(h) = η Q H, qᵢ what line i takes at h.
 *
 * The left side rises with h, and h is not above what the pump works against with any one of the lines alone. Null for a tank that
 * shares with none. Source: continuity at the pump and D'Aubuisson's efficiency.
 */
export function sharedFlows(
  destinations: readonly DestinationModel[],
  drive: Drive,
  lineOf: (destination: DestinationModel) => LineState,
): readonly (CubicMetresPerSecond | null)[] {
  const sharing = destinations.filter(isDrawn).filter(({ kept }) => kept);
  if (sharing.length < 2) return destinations.map(() => null);
  const input = drive.flow * Math.max(0, drive.fall);
  const alone = sharing.map((d) => {
    const q = deliveredFlow(d, drive, lineOf(d));
    const { level, loss } = governing(d, q, lineOf(d));
    return level - drive.wasteValve + loss;
  });
  const together = (head: Metres) => sharing.reduce((sum, d) => sum + flowAt(d, drive, { head, line: lineOf(d) }), 0);
  const head = risingRoot(
    (h) => h * together(h) - drive.efficiencyAt(h) * reachShare(drive.reach, drive.fall, h) * input,
    Math.max(0, Math.min(...alone)),
  );
  return destinations.map((d) => (isDrawn(d) && d.kept ? flowAt(d, drive, { head, line: lineOf(d) }) : null));
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

/**
 * Delivery head with the line full to its outlet. No crest stands under less pressure than a full column bears: where it would,
 * the column breaks there and the pump pushes against the crest.
 */
function fullHead(
  destination: DestinationModel & { readonly loss: LossLaw },
  q: CubicMetresPerSecond,
  { drive, line, columnBreaks }: { readonly drive: Drive; readonly line: LineState; readonly columnBreaks: Metres },
): Metres {
  const { ground, lossFactor: k } = line;
  const outlet = (ground[destination.node] ?? 0) + destination.outletHeight + k * destination.loss.headLoss(q);
  const broken = destination.highPlaces.map((p) => (ground[p.node] ?? 0) + columnBreaks + k * p.loss.headLoss(q));
  return Math.max(outlet, ...broken) - drive.wasteValve;
}

/** Write down everything one destination's delivery line comes to. */
export function runDestination(
  destination: DestinationModel,
  drive: Drive,
  context: {
    readonly line: LineState;
    readonly columnBreaks: Metres;
    /** What it gets where it shares the pump with others; null by itself. */
    readonly shared: CubicMetresPerSecond | null;
    readonly write: (name: DestinationOutput, value: number) => void;
  },
): void {
  const { line, write } = context;
  const outlet = valueAt(line.ground, destination.node) + destination.outletHeight;
  write('lift', outlet - drive.wasteValve);
  write('level-over-source', outlet - drive.source);
  const { loss } = destination;
  if (loss === null) return;
  const drawn = { ...destination, loss };
  const q = context.shared ?? deliveredFlow(drawn, drive, line);
  const top = governing(drawn, q, line);
  const lift = top.level - drive.wasteValve;
  const head = lift + top.loss;
  const backHead = destination.vented ? head : fullHead(drawn, q, { drive, line, columnBreaks: context.columnBreaks });
  const beats = drive.beats && (q > 0 || !drive.stopsDry);
  const runs = beats && backHead >= drive.leastPushBack && drive.reach > head;
  write('governing-lift', lift);
  write('delivery', q);
  write('delivery-head', head);
  write('friction', top.loss);
  write('friction-share', lift > 0 ? top.loss / lift : 0);
  write('lift-over-fall', drive.fall > 0 ? head / drive.fall : 0);
  write('back-pressure-ratio', drive.fall > 0 ? backHead / drive.fall : 0);
  write('back-pressure-head', backHead);
  write('crest-head', crestHead(drawn, q, line));
  write('reach-margin', drive.reach === Number.POSITIVE_INFINITY ? head : drive.reach - head);
  write('push-margin', backHead - drive.leastPushBack);
  write('runs', runs ? 1 : 0);
  write('arrives', runs ? q : 0);
}
