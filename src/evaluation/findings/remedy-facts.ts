import type { Metres, Ratio } from '../../units/quantity.ts';
import { designHeads } from '../model/design-heads.ts';
import type { DestinationOutput } from '../model/outputs.ts';
import type { HighPlace } from '../model/system-model.ts';
import { boreFor, named } from '../result/bore-for.ts';
import { boreSpread, laidLength } from '../site/pipe-of-plan.ts';
import { CAREFUL_LEVEL } from '../spread/doubt.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { compare, quotient, reachOfTolerance, type Spread } from '../statistics/compare.ts';
import { DAY } from '../statistics/estimate.ts';
import { Z90 } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import type { FindingCode } from './catalogue.ts';
import type { Judged } from './finding.ts';
import { outletMove } from './outlet-move.ts';
import { byToHold, timesToHold } from './to-hold.ts';

/** Halvings of the search for a length: to a millimetre for any drive pipe. */
const HALVINGS = 24;

/** What a rule of length counts by: the bore or the running fall. */
function measureOf({ site, known, layout }: SolvedSystem, code: string): Spread | null {
  if (code.startsWith('drive-length-fall')) return known.spread(layout.shared('fall'));
  const { drive } = site.arrangement;
  const pipe = drive ? site.pipes.get(drive.pipe) : undefined;
  return pipe === undefined ? null : boreSpread(pipe);
}

/** The length of drive pipe nearest to the drawn one with which its rule holds, m; null where none is found. */
function driveLengthToHold(system: SolvedSystem, { finding }: Judged, confidence: Ratio): Metres | null {
  const { limit, side } = finding;
  const by = measureOf(system, finding.code);
  if (limit === null || by === null) return null;
  const holds = (length: Metres) =>
    compare(quotient(laidLength(length), by), { limit, side, confidence }).verdict === 'holds';
  const edge = limit * by.estimate.likely;
  let [good, bad] = [side === 'at-least' ? edge * 2 : edge / 2, edge];
  if (!holds(good)) return null;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Numbers of a remedy, by name; one that is null is not told. */
type Numbers = Readonly<Record<string, number | null>>;

interface Help {
  readonly system: SolvedSystem;
  readonly judged: Judged;
  /** By how much the value must move, and by what factor, for the finding to hold. */
  readonly by: number;
  readonly times: Ratio;
  readonly likely: number;
  readonly limit: number;
}

type Remedy = (help: Help) => Numbers;

/** Nobody sets anything out finer. Common practice, no source. */
const FINEST: Metres = 0.01;

/** What a pump takes beyond its sheet, at the 90th percentile. */
const MORE_INTAKE: Ratio = 1 + reachOfTolerance(TOLERANCES.intake.value);

const driveLength = ({ system }: Help): number => {
  const { drive } = system.site.arrangement;
  return (drive && system.site.profiles.get(drive.id)?.line.slope) ?? 0;
};

/** Likely value of an output of the delivery line that a finding is about. */
function ofDestination({ system, judged }: Help, name: DestinationOutput): number {
  const index = system.model.destinations.findIndex((d) => d.id === judged.finding.about);
  return index < 0 ? 0 : system.known.estimate(system.layout.destination(index, name)).likely;
}

const fallOf = ({ system }: Help) => system.known.estimate(system.layout.shared('fall')).likely;

function volumeOf({ system, judged }: Help): number {
  const point = system.site.plan.points.find(({ id }) => id === judged.finding.about);
  return point?.role === 'tank' || point?.role === 'trough' ? point.volume : 0;
}

/** Losses of a line that is doubtful, at their 90th percentile over the likely ones. */
const moreLoss = (lossDoubt: Ratio): Ratio => Math.exp(Z90 * lossDoubt);

/** A supply line that brings too little: how far down its end must come, or how wide it must be. */
function supplyNumbers({ system, limit }: Help): Numbers {
  const { model, site, known, layout } = system;
  const { supply, standpipe, nodes } = model;
  const route = site.arrangement.supply?.id;
  if (supply === null || standpipe === null || route === undefined) return {};
  const level = (node: number) => nodes[node]?.ground ?? 0;
  const doubtful = known.estimate(layout.shared('freeboard'));
  const inlet = level(standpipe.node) + standpipe.inletHeight + standpipe.submergence;
  const head = level(model.source) + model.waterLevel - inlet - (doubtful.high - doubtful.likely);
  const flow = limit * MORE_INTAKE;
  const doubt = moreLoss(supply.lossDoubt);
  return {
    lower: Math.max(FINEST, supply.loss.headLoss(flow) * doubt - head),
    wider: boreFor(site, route, { flow, head: head / doubt }),
  };
}

/** A gravity line that brings too little: how much higher its start must be, or how wide it must be. */
function feedNumbers({ system, judged, limit }: Help): Numbers {
  const { model, known, layout, site } = system;
  const index = model.feeds.findIndex(({ route }) => route === judged.finding.about);
  const feed = model.feeds[index];
  if (feed === undefined) return {};
  const head = known.estimate(layout.feed(index, 'feed-still-head')).low;
  const flow = limit / DAY;
  const doubt = moreLoss(feed.lossDoubt);
  const missing = feed.loss.headLoss(flow) * doubt - head;
  return {
    // Nothing missing: the line would carry it, so it is the water that is short.
    higher: missing > 0 ? Math.max(FINEST, missing) : null,
    wider: boreFor(site, feed.route, { flow, head: head / doubt }),
  };
}

/** The high point that a line climbs in vain, and how far it stands above the outlet. */
function crestNumbers(help: Help): Numbers {
  const { model } = help.system;
  const destination = model.destinations.find(({ id }) => id === help.judged.finding.about);
  const over = ofDestination(help, 'governing-lift') - ofDestination(help, 'lift');
  const level = (place: HighPlace) => model.nodes[place.node]?.ground ?? 0;
  const [crest] = (destination?.highPlaces ?? []).toSorted((a, b) => level(b) - level(a));
  return over > FINEST && crest ? { crest: crest.at, over } : {};
}

/** The bore with which a delivery line's friction keeps its share of the lift, at what then arrives. */
function frictionNumbers(help: Help): Numbers {
  const { system, judged } = help;
  const destination = system.model.destinations.find(({ id }) => id === judged.finding.about);
  const lift = ofDestination(help, 'governing-lift');
  if (destination?.route == null || lift <= 0) return {};
  const share = help.likely * help.times;
  const flow = (ofDestination(help, 'delivery') * ofDestination(help, 'delivery-head')) / (lift * (1 + share));
  const head = share * lift;
  return { wider: boreFor(system.site, destination.route, { flow, head }) };
}

/** How much higher the outlet must be for an output to come to a value. */
function raised({ system, judged }: Help, output: DestinationOutput, value: number): number | null {
  const up = outletMove(system, judged.finding.about, { output, value });
  return up === null ? null : Math.sign(up) * Math.max(FINEST, Math.abs(up));
}

/** The same downwards. */
function lowered(help: Help, output: DestinationOutput, value: number): number | null {
  const up = raised(help, output, value);
  return up === null ? null : -up;
}

/** Air in the chamber of a ram by its parts. */
const chamberOf = ({ site }: SolvedSystem): number => (site.plan.pump?.kind === 'ram' ? site.plan.pump.airChamber : 0);

/** The next bore of the handbook in which the water of a line runs so many times as fast. */
function wider({ site }: SolvedSystem, about: string, times: Ratio): number | null {
  const route = site.plan.routes.find(({ id }) => id === about);
  const bore = route && site.pipes.get(route.pipe)?.bore;
  return bore === undefined ? null : named(bore / Math.sqrt(times));
}

const drivePipe: Remedy = (help) => {
  const { system, judged, likely, limit } = help;
  const edge = (driveLength(help) * limit) / likely;
  return {
    // Where the fall is too doubtful for any length, the one that fits the likely fall.
    laid: driveLengthToHold(system, judged, system.site.plan.confidence) ?? edge,
    edge,
    other: Number(judged.finding.facts.bore ?? 0) / help.times,
  };
};

/** The length of drive pipe at which a ram by its parts beats as it should, its setting as it is. */
const beat: Remedy = ({ system, likely, times }) => ({
  laid: system.model.behaviour.modelled?.lengthFor(likely * times) ?? null,
});

const REMEDIES: Readonly<Partial<Record<FindingCode, Remedy>>> = {
  'drive-rises': ({ limit, by }) => ({ depth: Math.ceil((limit + by) * 20) / 20 }),
  'air-ripple': ({ system, likely, limit, times }) => ({
    volume: chamberOf(system) * Math.max(1 / times, likely / limit),
  }),
  'velocity-high': ({ system, judged, times }) => ({ wider: wider(system, judged.finding.about, times) }),
  'pump-head': (help) => ({ raise: raised(help, 'back-pressure-head', help.likely + help.by) }),
  'pump-needless': ({ likely }) => ({ aim: CAREFUL_LEVEL, below: Math.max(FINEST, -likely) }),
  'source-short': ({ by, limit }) => ({ most: limit > by ? limit - by : null }),
  'supply-short': supplyNumbers,
  'supply-bore': ({ judged, times }) => ({ wider: named(Number(judged.finding.facts.bore ?? 0) * times) }),
  'drive-length-bore-least': drivePipe,
  'drive-length-bore-most': drivePipe,
  'drive-length-fall-least': drivePipe,
  'drive-length-fall-most': drivePipe,
  'back-pressure': (help) => ({ head: raised(help, 'back-pressure-ratio', help.likely * help.times) }),
  'delivery-head': (help) => ({ raise: raised(help, 'back-pressure-head', help.likely + help.by) }),
  'valve-stays-shut': (help) => ({ raise: raised(help, 'back-pressure-head', help.likely + help.by) }),
  'lift-out-of-reach': (help) => ({ lower: lowered(help, 'delivery-head', help.likely - help.by) }),
  'lift-over-fall': (help) => ({
    fall: fallOf(help) / help.times,
    lower: lowered(help, 'lift-over-fall', help.likely * help.times),
    edge: ofDestination(help, 'delivery-head') / help.limit,
  }),
  'ram-stops': ({ system }) => {
    const heads = designHeads(system.site);
    return { aim: CAREFUL_LEVEL, lag: (heads && system.model.behaviour.modelled?.longestLag(heads)) ?? null };
  },
  'valve-sticks': ({ times }) => ({ share: 1 - 1 / times }),
  'beat-slow': beat,
  'beat-fast': beat,
  'friction-share': frictionNumbers,
  'need-unmet': (help) => ({ low: help.judged.finding.value?.low ?? 0, ...crestNumbers(help) }),
  'pipe-pressure': ({ limit, by }) => ({ rating: limit + by }),
  'trough-dry': feedNumbers,
  'storage-short': (help) => ({ volume: volumeOf(help) * help.times }),
  'trough-first-hour': (help) => ({ volume: volumeOf(help) + help.by }),
};

/** Share by which a number is told beyond what just holds, so that doing what is said is enough after it was rounded. */
const OUTWARD: Ratio = 0.01;

/** Numbers that help by being less. */
const LESS = new Set(['most', 'lag']);

/** Numbers that are no remedies but what is so. */
const AS_IS = new Set(['low', 'over', 'crest', 'edge', 'other', 'aim', 'level', 'below', 'wider']);

/** A remedy's number, told a little beyond what just holds. */
function outward(name: string, value: number, code: string): number {
  if (AS_IS.has(name)) return value;
  const less = LESS.has(name) || (name === 'laid' && /most|slow/.test(code));
  return value * (less ? 1 - OUTWARD : 1 + OUTWARD);
}

/** A finding that does not hold, with the numbers of its remedy. */
function withNumbers(system: SolvedSystem, judged: Judged): Judged {
  const { finding } = judged;
  const { confidence } = system.site.plan;
  const by = Math.max(finding.quantity === 'height' ? FINEST : 0, byToHold(judged, confidence));
  const help = {
    system,
    judged,
    by,
    times: timesToHold(judged, confidence),
    likely: finding.value?.likely ?? 0,
    limit: finding.limit ?? 0,
  };
  const numbers = REMEDIES[finding.code as FindingCode]?.(help) ?? {};
  const told = Object.entries({ by, ...numbers }).flatMap(([name, value]): [string, number][] =>
    value === null ? [] : [[name, outward(name, value, finding.code)]],
  );
  return { ...judged, finding: { ...finding, facts: { ...Object.fromEntries(told), ...finding.facts } } };
}

/** The same findings; those that do not hold carry the numbers of what to do about them. */
export function withRemedies(system: SolvedSystem | null, told: readonly Judged[]): readonly Judged[] {
  if (system === null) return told;
  return told.map((judged) => (judged.finding.verdict === 'holds' ? judged : withNumbers(system, judged)));
}
