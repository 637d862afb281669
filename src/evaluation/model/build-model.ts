import { criterion } from '../../handbook/practice-criteria.ts';
import { waveMaterial } from '../../handbook/wave-materials.ts';
import { GRAVITY } from '../../hydraulics/gravity.ts';
import { waveSpeed } from '../../hydraulics/pressure-wave.ts';
import { airPressure, vapourHead } from '../../hydraulics/suction.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { PlanPoint } from '../../plan/model/plan.ts';
import type { Heads } from '../../ram/cycle/ram-system.ts';
import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import type { GravityFeed } from '../site/arrangement.ts';
import type { HeightNode } from '../site/height-net.ts';
import { drawingIndex } from '../site/herd-shares.ts';
import type { Site } from '../site/site.ts';
import { sourceFlow, usableShare } from '../site/source-yield.ts';
import { DAY } from '../statistics/estimate.ts';
import { designHeads } from './design-heads.ts';
import { NodeBook, type NodeGroups } from './height-nodes.ts';
import { drawnLine } from './line-model.ts';
import { anyPump, type PumpBehaviour, sheetBehaviour, sideBySide } from './pump-behaviour.ts';
import { drivePipe, ramBehaviour } from './ram-behaviour.ts';
import { drawnBy, runFeed } from './run-feed.ts';
import { runLimits } from './run-limits.ts';
import { shutVelocity } from './shut-velocity.ts';
import type { DestinationModel, DriveWave, FeedModel, NodeIndex, SourceDraw, SystemModel } from './system-model.ts';

/** A model and the groups of its nodes that may be moved together. */
export interface BuiltModel {
  readonly model: SystemModel;
  readonly groups: NodeGroups;
}

/** Least depth of water over the drive pipe's inlet. */
const LEAST_SUBMERGENCE: Metres = criterion('inlet-submergence-least').value;

/** Slope of the submergence rule S/D = 1 + 2.3 v/√(gD): ANSI/HI 9.8-1998, Pump Intake Design, section 9.8.7. */
const SUBMERGENCE_PER_FROUDE = 2.3;

/** Depth of water that keeps air out of the inlet at the velocity at which the waste valve shuts. */
function submergence(bore: Metres | null, each: PumpBehaviour, available: number | null): Metres {
  const flow = each.intakeSet ?? Math.min(each.intakeMost, available ?? Number.MAX_VALUE);
  if (bore === null || flow === Number.MAX_VALUE) return LEAST_SUBMERGENCE;
  const froude = shutVelocity({ driveFlow: flow, bore }) / Math.sqrt(GRAVITY * bore);
  return Math.max(LEAST_SUBMERGENCE, bore * (1 + SUBMERGENCE_PER_FROUDE * froude));
}

function nodeOf(site: Site, point: PlanPoint, book: NodeBook): NodeIndex | null {
  const node = site.heights.node(point.id);
  // Kept tanks share the pump: what one gets rests on the others' heights too.
  const own = point.role === 'tank' && point.standing === 'kept' ? `kept ${point.id}` : point.role;
  if (point.role !== 'trough') return node && book.add(node, own);
  const { gravity, destinations } = site.arrangement;
  const feed = gravity.find((g) => g.trough.id === point.id);
  if (destinations.some((d) => d.point.id === point.id)) return node && book.add(node, 'pumped trough');
  return node && book.add(node, `trough ${(feed && drawingIndex(site, feed.route)) ?? 0}`);
}

function destinations(site: Site, at: ReadonlyMap<string, NodeIndex>, book: NodeBook): DestinationModel[] {
  return site.arrangement.destinations.flatMap(({ point, route }) => {
    const node = at.get(point.id);
    if (node === undefined) return [];
    const line = drawnLine(site, route, book);
    return [
      {
        id: point.id,
        route: route?.id ?? null,
        node,
        outletHeight: point.role === 'tank' ? point.inletHeight : point.valveHeight,
        loss: line?.loss ?? null,
        lossDoubt: line?.lossDoubt ?? 0,
        highPlaces: line?.highPlaces ?? [],
        vented: route?.summits === 'vented',
        kept: point.role === 'tank' && point.standing === 'kept',
      },
    ];
  });
}

/** What a line to a trough takes from the source beside the pump. */
function drawOf({ shares, demandPerDay }: Site, { from, route }: GravityFeed): SourceDraw | null {
  if (from.role !== 'source') return null;
  const mean = ((demandPerDay ?? 0) * shares.drawn(route.id)) / DAY;
  return { mean, opens: demandPerDay === null || mean > 0 };
}

function feeds(site: Site, at: ReadonlyMap<string, NodeIndex>, book: NodeBook): FeedModel[] {
  return site.arrangement.gravity.flatMap((gravity) => {
    const { from, trough, route } = gravity;
    const start = at.get(from.id);
    const node = at.get(trough.id);
    const line = drawnLine(site, route, book);
    if (start === undefined || node === undefined || line === null) return [];
    return [
      {
        ...line,
        summits: line.highPlaces.filter(({ summit }) => summit),
        id: trough.id,
        route: route.id,
        from: start,
        fromHeight: from.role === 'tank' ? from.outletHeight : from.waterLevel,
        node,
        valveHeight: trough.valveHeight,
        valveFlow: trough.valveFlow ?? Number.MAX_VALUE,
        draw: drawOf(site, gravity),
      },
    ];
  });
}

function behaviourOf(site: Site, heads: Heads | null, available: number | null): PumpBehaviour {
  const { pump, waterTemperature } = site.plan;
  if (pump === null) return anyPump();
  if (pump.kind === 'sheet') return sheetBehaviour(pump);
  return ramBehaviour(pump, drivePipe(site), { heads, temperature: waterTemperature, available });
}

function availableOf(site: Site): SystemModel['available'] {
  const read = sourceFlow(site.plan.yieldReadings);
  const { share, deviation } = usableShare(site.plan);
  return read && { flow: read.flow * share, deviation: Math.hypot(read.deviation * share, read.flow * deviation) };
}

/** What the source likely leaves for the pump in the mean of a day. */
function likelyForPump(
  feeds: readonly FeedModel[],
  nodes: readonly HeightNode[],
  available: CubicMetresPerSecond,
): CubicMetresPerSecond {
  const ground = Float64Array.from(nodes, (n) => n.ground);
  const draws = feeds.map((feed) => drawnBy(feed, runFeed(feed, { ground, lossFactor: 1 }, available).flow).mean);
  return Math.max(0, available - draws.reduce((sum, draw) => sum + draw, 0));
}

/** The drive pipe's wave, for a pump that has no model of its own. */
function waveOf(site: Site, each: PumpBehaviour): DriveWave | null {
  const { drive } = site.arrangement;
  const pipe = drive && site.pipes.get(drive.pipe);
  if (!pipe || each.modelled !== null) return null;
  const { modulus } = waveMaterial(pipe.material);
  return {
    speed: waveSpeed({ ...waterAt(site.plan.waterTemperature), bore: pipe.bore, wall: pipe.wall, modulus }),
    bore: pipe.bore,
    velocity: null,
  };
}

/** Dissolved air comes out before the water boils: this much is kept from the vapour limit. Common practice, no source. */
const AIR_MARGIN: Metres = 3;

/** Pressure head at which a full column breaks at a crest, at the height of the source above the sea. */
function columnBreaks({ plan }: Site, source: NodeIndex, book: NodeBook): Metres {
  const altitude = book.nodes[source]?.ground ?? 0;
  return AIR_MARGIN - vapourHead({ airPressure: airPressure(altitude), water: waterAt(plan.waterTemperature) });
}

/** The model of a site; null until source and pump stand on known ground. */
export function buildModel(site: Site): BuiltModel | null {
  const { arrangement, plan } = site;
  const book = new NodeBook();
  const at = new Map<string, NodeIndex>();
  for (const point of plan.points) {
    const node = nodeOf(site, point, book);
    if (node !== null) at.set(point.id, node);
  }
  const { source, pump, standpipe, supply, drive } = arrangement;
  const sourceNode = source && at.get(source.id);
  const pumpNode = pump && at.get(pump.id);
  if (!source || !pump || sourceNode == null || pumpNode == null) return null;
  const standpipeNode = standpipe ? at.get(standpipe.id) : undefined;
  const available = availableOf(site);
  const heads = designHeads(site);
  const fed = feeds(site, at, book);
  const forPump = available && likelyForPump(fed, book.nodes, available.flow);
  const pumps = plan.pump?.count ?? 1;
  const share = forPump && forPump / pumps;
  const each = behaviourOf(site, heads, share);
  const driveBore = (drive && site.pipes.get(drive.pipe)?.bore) ?? each.driveBore;
  const model: SystemModel = {
    nodes: book.nodes,
    source: sourceNode,
    waterLevel: source.waterLevel,
    pump: pumpNode,
    wasteValveHeight: pump.wasteValveHeight,
    standpipe:
      standpipe && standpipeNode !== undefined
        ? { ...standpipe, node: standpipeNode, submergence: submergence(driveBore, each, share) }
        : null,
    supply: drawnLine(site, supply, book),
    behaviour: sideBySide(each, pumps),
    limits: runLimits(each),
    wave: waveOf(site, each),
    columnBreaks: columnBreaks(site, sourceNode, book),
    each,
    pumps,
    designHead: heads?.deliveryHead ?? 0,
    available,
    destinations: destinations(site, at, book),
    feeds: fed,
    troughs: arrangement.troughs.flatMap((t) => {
      const node = at.get(t.id);
      return node === undefined ? [] : [{ id: t.id, node, valveHeight: t.valveHeight }];
    }),
  };
  return { model, groups: book.groups() };
}
