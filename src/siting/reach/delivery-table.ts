import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import { type BuiltModel, buildModel } from '../../evaluation/model/build-model.ts';
import { NodeBook } from '../../evaluation/model/height-nodes.ts';
import { drawnLine } from '../../evaluation/model/line-model.ts';
import { OutputLayout } from '../../evaluation/model/outputs.ts';
import { runSystem } from '../../evaluation/model/run-system.ts';
import type { DestinationModel, SystemModel, SystemState } from '../../evaluation/model/system-model.ts';
import { siteOf } from '../../evaluation/site/site.ts';
import { baseState } from '../../evaluation/spread/first-order.ts';
import { solve } from '../../evaluation/spread/solve.ts';
import { Z90 } from '../../evaluation/statistics/normal.ts';
import type { Plan, PlanPipe, TankPoint } from '../../plan/model/plan.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';

/** Delivery over lift and length: a node for every pair, both rising in equal ratios. */
export interface DeliveryTable {
  readonly nodes: number;
  readonly leastLift: Metres;
  readonly mostLift: Metres;
  readonly leastLength: Metres;
  readonly mostLength: Metres;
  /**
   * Natural logarithm of the likely delivery, m³/s, row by row: a row has one length. What the pressure wave's reach takes of it
   * is not in it; `reachShare` has that.
   */
  readonly logDelivery: Float32Array;
  /** Friction's share of the delivery head. */
  readonly frictionShare: Float32Array;
  /** Exponent m of the loss at the delivery: Δ ln h_f / Δ ln q. */
  readonly exponent: Float32Array;
  /** Standard deviation of the logarithm of the line's loss, a number a length. */
  readonly lossDoubt: Float32Array;
  /** What the pump does with the water, without the line and the tank: deviations of its logarithm below and above. */
  readonly work: { readonly below: Ratio; readonly above: Ratio };
  /** Running fall, m. */
  readonly fall: Metres;
  /** Head lost in one metre of line at the delivery of an ordinary place: what a way's length is worth in height. */
  readonly friction: Ratio;
  /** Chance that the pump runs against a delivery head: a number a lift. */
  readonly runs: Float32Array;
  /** Delivery head that the pressure wave does not reach, m; infinite where no wave is known; and its relative doubt over the fall. */
  readonly reach: Metres;
  readonly reachDoubt: Ratio;
}

/** A plan's pump and the pipe of a delivery line that is not drawn yet. */
export interface TableWish {
  readonly plan: Plan;
  readonly ground: Ground;
  readonly pipe: PlanPipe;
  readonly mostLift: Metres;
  readonly mostLength: Metres;
}

const NODES = 96;
const LEAST_LIFT: Metres = 1;
const LEAST_LENGTH: Metres = 5;

/**
 * What the planner's own pump and pipe solver delivers over a grid of lifts and lengths; null where source, pump or its ground
 * are missing, or nothing is known of the flow.
 *
 * A tank at the lift, with a line of the length without summits, is put into the plan's model and the model is run. So what is
 * read from the table and what a plan with a tank there comes to cannot contradict each other.
 */
export function deliveryTable(wish: TableWish): DeliveryTable | null {
  const probe = new Probe(wish);
  const first = probe.modelAt(Math.sqrt(LEAST_LIFT * wish.mostLift));
  if (first === null || !probe.flows(first.model)) return null;
  const logDelivery = new Float32Array(NODES * NODES);
  const frictionShare = new Float32Array(NODES * NODES);
  const exponent = new Float32Array(NODES * NODES);
  const lossDoubt = new Float32Array(NODES);
  const runs = new Float32Array(NODES);
  const lines = Array.from({ length: NODES }, (_, j) => probe.line(ratioStep(LEAST_LENGTH, wish.mostLength, j)));
  for (const [j, line] of lines.entries()) lossDoubt[j] = line.lossDoubt;
  for (let i = 0; i < NODES; i++) {
    const lift = ratioStep(LEAST_LIFT, wish.mostLift, i);
    runs[i] = probe.chance(lift);
    const built = probe.rests ? first : (probe.modelAt(lift) ?? first);
    for (const [j, line] of lines.entries()) {
      const at = j * NODES + i;
      const { delivery, friction, head } = probe.run({ ...built.model, wave: null }, lift, line);
      logDelivery[at] = Math.log(Math.max(delivery, LEAST_FLOW));
      frictionShare[at] = head > 0 ? friction / head : 0;
      exponent[at] = exponentOf(line.loss, delivery);
    }
  }
  return {
    nodes: NODES,
    leastLift: LEAST_LIFT,
    mostLift: wish.mostLift,
    leastLength: LEAST_LENGTH,
    mostLength: wish.mostLength,
    logDelivery,
    frictionShare,
    exponent,
    lossDoubt,
    runs,
    work: probe.work(first.model),
    ...probe.wave(first.model),
    friction: ordinaryFriction(frictionShare, wish),
  };
}

/** Stands for no water, so that it has a logarithm: a drop in a year. */
const LEAST_FLOW: CubicMetresPerSecond = 1e-15;

const ratioStep = (least: number, most: number, k: number): number => least * (most / least) ** (k / (NODES - 1));

/** A flow this much larger shows the exponent. */
const STEP: Ratio = 1.01;

function exponentOf(loss: DestinationModel['loss'], flow: CubicMetresPerSecond): Ratio {
  const lost = loss?.headLoss(flow) ?? 0;
  return loss && lost > 0 ? Math.log(loss.headLoss(flow * STEP) / lost) / Math.log(STEP) : 1;
}

const ORDINARY_LIFT: Metres = 30;
const ORDINARY_LENGTH: Metres = 400;

function ordinaryFriction(share: Float32Array, { mostLift, mostLength }: TableWish): Ratio {
  const i = nearestNode(Math.min(ORDINARY_LIFT, mostLift), LEAST_LIFT, mostLift);
  const j = nearestNode(Math.min(ORDINARY_LENGTH, mostLength), LEAST_LENGTH, mostLength);
  const s = Math.min(0.9, share[j * NODES + i] as number);
  const lift = ratioStep(LEAST_LIFT, mostLift, i);
  return (lift * s) / (1 - s) / ratioStep(LEAST_LENGTH, mostLength, j);
}

const nearestNode = (value: number, least: number, most: number): number =>
  Math.min(NODES - 1, Math.max(0, Math.round(((NODES - 1) * Math.log(value / least)) / Math.log(most / least))));

/** Names that no plan of a user has. */
const TANK = 'reach: tank';
const LINE = 'reach: line';
const PIPE = 'reach: pipe';

/** The tank of the table lies some hundred metres from the pump, so that their heights are not wrong together; degrees. */
const ASIDE = 0.001;

/** A tank without an outlet height, so that its ground is its level. */
const TANK_POINT: Omit<TankPoint, 'position'> = {
  id: TANK,
  role: 'tank',
  name: '',
  note: '',
  inletHeight: 0,
  outletHeight: 0,
  volume: 1,
  standing: 'kept',
};

/** The plan with nothing behind its pump but one tank, put to the planner's own model. */
class Probe {
  readonly #wish: TableWish;
  readonly #plan: Plan;
  readonly #out: Float64Array;
  readonly #layout: OutputLayout;
  readonly #pumpLevel: Metres;

  constructor(wish: TableWish) {
    this.#wish = wish;
    this.#plan = probePlan(wish);
    const troughs = this.#plan.points.filter((p) => p.role === 'trough').length;
    const feeds = this.#plan.routes.filter((r) => r.role === 'gravity').length;
    this.#layout = new OutputLayout({ destinations: 1, feeds, troughs });
    this.#out = new Float64Array(this.#layout.length);
    const pump = wish.plan.points.find((p) => p.role === 'pump');
    const ground = pump ? (wish.ground.points.get(pump.id)?.ground ?? 0) : 0;
    this.#pumpLevel = ground + (pump?.role === 'pump' ? pump.wasteValveHeight : 0);
  }

  /** Whether the pump answers every lift with the same setting, so that one model serves all. */
  get rests(): boolean {
    return this.#plan.pump?.kind !== 'ram';
  }

  modelAt(lift: Metres): BuiltModel | null {
    return buildModel(siteOf(this.#plan, this.#groundAt(lift, ORDINARY_LENGTH)));
  }

  /** A line's loss and its doubt, as the model has it for a drawn line of that length. */
  line(length: Metres): Pick<DestinationModel, 'loss' | 'lossDoubt'> {
    const site = siteOf(this.#plan, this.#groundAt(1, length));
    const drawn = drawnLine(site, site.plan.routes.find((r) => r.id === LINE) ?? null, new NodeBook());
    if (!drawn) throw new Error('a line of the table: found none, expected one on known ground');
    return { loss: drawn.loss, lossDoubt: drawn.lossDoubt };
  }

  flows(model: SystemModel): boolean {
    this.#runState(model, baseState(model));
    return (this.#out[this.#layout.shared('running-flow')] as number) < Number.MAX_VALUE;
  }

  run(model: SystemModel, lift: Metres, line: Pick<DestinationModel, 'loss' | 'lossDoubt'>) {
    return this.#runWith(model, lift, line, () => {});
  }

  #runWith(
    model: SystemModel,
    lift: Metres,
    line: Pick<DestinationModel, 'loss' | 'lossDoubt'> | null,
    change: (state: SystemState) => void,
  ) {
    const [destination] = model.destinations;
    if (!destination) throw new Error('destinations of the table: found none, expected one');
    const own = line ? { ...destination, ...line } : destination;
    const state = baseState(model);
    state.ground[destination.node] = (state.ground[model.pump] as number) + model.wasteValveHeight + lift;
    change(state);
    this.#runState({ ...model, destinations: [own] }, state);
    const of = (name: Parameters<OutputLayout['destination']>[1]) =>
      this.#out[this.#layout.destination(0, name)] as number;
    return {
      delivery: of('delivery'),
      friction: of('friction'),
      head: of('delivery-head'),
      margin: of('reach-margin'),
    };
  }

  #runState(model: SystemModel, state: SystemState): void {
    runSystem(model, this.#layout, state, this.#out);
  }

  /** What source, efficiency and supply line do to the pump's work, as deviations of its logarithm. */
  work(model: SystemModel): DeliveryTable['work'] {
    const deviation = model.available?.deviation ?? 0;
    const lift = ORDINARY_LIFT;
    const short = this.line(LEAST_LENGTH);
    const waveless = { ...model, wave: null };
    const middle = Math.log(Math.max(this.run(waveless, lift, short).delivery, LEAST_FLOW));
    const moves: ((state: SystemState, z: number) => void)[] = [
      (s, z) => {
        s.available = Math.max(0, s.available + z * deviation);
      },
      (s, z) => {
        s.efficiency = z;
      },
      (s, z) => {
        s.supplyLoss = z;
      },
    ];
    let below = 0;
    let above = 0;
    for (const move of moves) {
      const [low, high] = [-Z90, Z90].map((z) => {
        const { delivery } = this.#runWith(waveless, lift, short, (s) => move(s, z));
        return (Math.log(Math.max(delivery, LEAST_FLOW)) - middle) / Z90;
      }) as [number, number];
      below = Math.hypot(below, Math.max(0, -low, -high));
      above = Math.hypot(above, Math.max(0, low, high));
    }
    return { below, above };
  }

  /** Chance that the pump runs against a lift, from the planner's own spreads. */
  chance(lift: Metres): Ratio {
    const system = solve(siteOf(this.#plan, this.#groundAt(lift, LEAST_LENGTH)), this.#wish.ground.accuracy);
    return system ? system.known.spread(system.layout.destination(0, 'runs')).chanceAtLeast(1) : 0;
  }

  /** Running fall, how high the pressure wave reaches, and how well that is known. */
  wave(model: SystemModel): Pick<DeliveryTable, 'fall' | 'reach' | 'reachDoubt'> {
    const short = this.line(LEAST_LENGTH);
    const reachAt = (off: number): Metres => {
      const { head, margin } = this.#runWith(model, ORDINARY_LIFT, short, (s) => {
        s.wave = off;
      });
      return head + margin;
    };
    const reach = reachAt(0);
    const fall = this.#out[this.#layout.shared('fall')] as number;
    if (model.wave === null) return { fall, reach: Number.POSITIVE_INFINITY, reachDoubt: 0 };
    return { fall, reach, reachDoubt: Math.max(0, (reachAt(Z90) - reach) / (Z90 * Math.max(1e-9, reach - fall))) };
  }

  #groundAt(lift: Metres, length: Metres): Ground {
    const { ground } = this.#wish;
    const level = this.#pumpLevel + lift;
    return {
      ...ground,
      points: new Map([...ground.points, [TANK, { ground: level, slope: 0, smoothing: 0 }]]),
      lines: new Map([...ground.lines, [LINE, levelLine(length, level)]]),
    };
  }
}

function probePlan({ plan, pipe }: TableWish): Plan {
  const source = plan.points.find((p) => p.role === 'source');
  const pump = plan.points.find((p) => p.role === 'pump');
  const position = pump?.position ?? { lon: 0, lat: 0 };
  const fromSource = plan.routes.filter((r) => r.role === 'gravity' && r.from === source?.id);
  const feeds = plan.routes.filter((r) => r.role === 'supply' || r.role === 'drive');
  return {
    ...plan,
    points: [
      ...plan.points.filter((p) => p.role !== 'tank' && (p.role !== 'trough' || fromSource.some((r) => r.to === p.id))),
      { ...TANK_POINT, position: { ...position, lat: position.lat + ASIDE } },
    ],
    routes: [
      ...feeds,
      ...fromSource,
      {
        id: LINE,
        role: 'delivery',
        name: '',
        note: '',
        from: pump?.id ?? '',
        to: TANK,
        vertices: [position, { ...position, lat: position.lat + ASIDE }],
        pipe: PIPE,
        fittings: [],
        summits: 'vented',
      },
    ],
    pipes: [...plan.pipes, { ...pipe, id: PIPE }],
  };
}

/** A line of a length on level ground: what friction needs to know of it. */
function levelLine(length: Metres, level: Metres): GroundLine {
  return {
    at: Float64Array.of(0, length),
    lon: new Float64Array(2),
    lat: new Float64Array(2),
    ground: Float64Array.of(level, level),
    known: Uint8Array.of(1, 1),
    vertices: Uint32Array.of(0, 1),
    voids: [],
    horizontal: length,
    slope: length,
    doubt: { slope: new Float32Array(2), smoothing: new Float32Array(2) },
  };
}
