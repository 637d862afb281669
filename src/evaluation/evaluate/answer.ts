import type { Ratio } from '../../units/quantity.ts';
import type { Answer, Finding, MeasureFirst, MissingPart, TankResult, TroughResult } from '../result/evaluation.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { compare, worst } from '../statistics/compare.ts';
import { DAY, type Verdict } from '../statistics/estimate.ts';

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, measure: 1, fails: 2 };

interface Known {
  readonly site: Site;
  readonly system: SolvedSystem | null;
  readonly gravity: SolvedSystem | null;
  /** Everything judged, and of that what is told. */
  readonly findings: readonly Finding[];
  readonly told: readonly Finding[];
  readonly tanks: readonly TankResult[];
  readonly troughs: readonly TroughResult[];
  readonly measureFirst: readonly MeasureFirst[];
}

const NOTHING_ARRIVES: Answer['arrives'] = {
  about: null,
  verdict: null,
  chance: null,
  perDay: null,
  ifRunningPerDay: null,
  needPerDay: null,
  because: null,
};

const NOT_ASKED: Answer['runs'] = { verdict: null, chance: null, because: null };

/** The three questions answered apart, each with its own verdict, and the state that the plan is in. */
export function answerOf(known: Known): Answer {
  const first = known.measureFirst[0] ?? null;
  const missing = missingParts(known.site);
  if (known.gravity !== null && known.system === null) return { ...gravityAnswer(known), first };
  if (missing.length > 0) return { state: 'incomplete', missing, runs: NOT_ASKED, arrives: NOTHING_ARRIVES, first };
  const unknown = known.findings.find(({ code }) => code === 'point-unknown' || code === 'ground-unknown');
  if (known.system === null) return noGround(unknown ?? null, first);
  return { ...pumpedAnswer(known, known.system), first };
}

/** What is not drawn yet of what any answer needs. */
function missingParts({ arrangement }: Site): MissingPart[] {
  const { source, standpipe, pump, supply, drive, destinations } = arrangement;
  const parts: readonly (readonly [MissingPart, boolean])[] = [
    ['source', source === null],
    ['pump', pump === null],
    ['supply', standpipe !== null && supply === null],
    ['drive', source !== null && pump !== null && drive === null],
    ['destination', destinations.length === 0],
    ['delivery', destinations.length > 0 && destinations.every(({ route }) => route === null)],
  ];
  return parts.flatMap(([part, lacks]) => (lacks ? [part] : []));
}

function noGround(because: Finding | null, first: MeasureFirst | null): Answer {
  const runs = { verdict: 'measure' as const, chance: null, because };
  return { state: 'no-ground', missing: [], runs, arrives: NOTHING_ARRIVES, first };
}

/** Lines that run by themselves: the worst of them speaks. */
function gravityAnswer({ site, findings, told, troughs }: Known): Omit<Answer, 'first'> {
  const running = findings.filter(({ bears }) => bears === 'running');
  const because = decisive(told.filter(({ bears }) => bears === 'running'));
  const fed = troughs.filter(({ flow }) => flow !== null);
  const short = (t: TroughResult) => (t.needPerDay ?? 0) - (t.flow?.likely ?? 0) * DAY;
  const [trough] = fed.toSorted((a, b) => short(b) - short(a));
  const dry = findings.filter(({ code }) => code === 'trough-dry');
  const of = (t: TroughResult | undefined) =>
    dry.find(({ about }) => site.arrangement.gravity.some((g) => g.route.id === about && g.trough.id === t?.id)) ??
    null;
  const against = of(trough);
  const perDay = trough?.flow
    ? { low: trough.flow.low * DAY, likely: trough.flow.likely * DAY, high: trough.flow.high * DAY }
    : null;
  return {
    state: 'gravity',
    missing: [],
    runs: { verdict: worst(running.map((f) => f.verdict)), chance: because?.chance ?? 1, because },
    arrives: {
      about: trough?.id ?? null,
      verdict: against?.verdict ?? null,
      chance: against?.chance ?? null,
      perDay,
      ifRunningPerDay: perDay,
      needPerDay: trough?.needPerDay ?? null,
      because: against !== null && against.verdict !== 'holds' ? asTold(against, told) : null,
    },
  };
}

/** A finding as it is told, with the numbers of its remedy; as it was judged where another tells it along. */
const asTold = (finding: Finding, told: readonly Finding[]): Finding =>
  told.find(({ code, about }) => code === finding.code && about === finding.about) ?? finding;

/** The finding that decides: the worst, and of those the one least likely to hold; null where all hold. */
function decisive(findings: readonly Finding[]): Finding | null {
  const open = findings.filter(({ verdict }) => verdict !== 'holds');
  const [first] = open.toSorted((a, b) => RANK[b.verdict] - RANK[a.verdict] || a.chance - b.chance);
  return first ?? null;
}

/** The deciding one of those that are told; where another finding tells all of them along, of everything judged. */
function decisiveOf(told: readonly Finding[], running: readonly Finding[]): Finding | null {
  return decisive(told.filter(({ bears }) => bears === 'running')) ?? decisive(running);
}

/** Where each holds by itself and not all of them together: the one that carries most of what is left of doubt. */
function leastSure(running: readonly Finding[]): Finding | null {
  return running.toSorted((a, b) => a.chance - b.chance)[0] ?? null;
}

/** What draws and first order do not count in the chance that it runs: it is judged beside it. */
const BESIDE = new Set([
  'reading-contradicts',
  'ground-unknown',
  'point-unknown',
  'yield-unread',
  'drive-rises',
  'ram-stops',
]);

interface Place {
  readonly tank: TankResult;
  readonly index: number;
  readonly runs: Answer['runs'];
  readonly arrives: Answer['arrives'];
  readonly needless: boolean;
}

/** Findings that bear on a place: those of what all share, and those of its own line. */
function bearingOn({ arrangement, plan }: Site, place: string): (finding: Finding) => boolean {
  const { source, standpipe, pump, supply, drive } = arrangement;
  const line = plan.routes.find((r) => r.role === 'delivery' && r.to === place)?.id;
  const ids = new Set([source?.id, standpipe?.id, pump?.id, supply?.id, drive?.id, place, line]);
  return ({ about }) => ids.has(about);
}

function placeOf(known: Known, system: SolvedSystem, index: number): Place | null {
  const tank = known.tanks[index];
  if (tank === undefined || tank.line === null) return null;
  const { site, findings, told } = known;
  const { confidence } = site.plan;
  const bears = bearingOn(site, tank.id);
  const mine = findings.filter(bears);
  const running = mine.filter(({ bears }) => bears === 'running');
  const counted = system.layout.destination(index, 'runs');
  const spread = system.known.spread(counted);
  const judged = compare(spread, { limit: 1, side: 'at-least', confidence });
  const beside = running.filter(({ code }) => BESIDE.has(code));
  // Nothing that rests on a reading which cannot be right is told as sure.
  const doubtful = running.find((f) => f.code === 'reading-contradicts' && f.verdict === 'measure') ?? null;
  const verdict = doubtful ? 'measure' : worst([judged.verdict, ...beside.map((f) => f.verdict)]);
  const chance: Ratio = Math.min(judged.chance, ...beside.map((f) => f.chance));
  const needless = mine.some((f) => f.code === 'pump-needless' && f.about === tank.id && f.verdict === 'fails');
  const yields = mine.filter((f) => (f.code === 'need-unmet' || f.code === 'year-short') && f.about === tank.id);
  // The day and the year: what is worse speaks.
  const need = decisive(yields) ?? yields[0] ?? null;
  return {
    tank,
    index,
    needless,
    runs: {
      verdict,
      chance,
      because: verdict === 'holds' ? null : (doubtful ?? decisiveOf(told.filter(bears), running) ?? leastSure(running)),
    },
    arrives: {
      about: tank.id,
      verdict: need?.verdict ?? null,
      chance: need?.chance ?? null,
      perDay: tank.line.deliveryPerDay,
      ifRunningPerDay: tank.line.ifRunningPerDay,
      needPerDay: tank.demandPerDay,
      because: need !== null && need.verdict !== 'holds' ? asTold(need, told) : null,
    },
  };
}

const rankOf = ({ runs, arrives }: Place): number =>
  3 * RANK[runs.verdict ?? 'holds'] + RANK[arrives.verdict ?? 'holds'];

const likelyOf = ({ arrives }: Place): number => arrives.perDay?.likely ?? 0;

/** The place that the plan is answered for: of those that are kept the worst, else the best of those not set aside. */
function chosenPlace(site: Site, places: readonly Place[]): Place | undefined {
  const standing = new Map(site.plan.points.map((p) => [p.id, p.role === 'tank' ? p.standing : 'candidate']));
  const kept = places.filter(({ tank }) => standing.get(tank.id) === 'kept');
  const open = places.filter(({ tank }) => standing.get(tank.id) !== 'set-aside');
  const pumped = open.filter(({ needless }) => !needless);
  if (kept.length > 0) return kept.toSorted((a, b) => rankOf(b) - rankOf(a))[0];
  return (pumped.length > 0 ? pumped : open).toSorted((a, b) => rankOf(a) - rankOf(b) || likelyOf(b) - likelyOf(a))[0];
}

const STATE = { holds: 'runs', measure: 'may-run', fails: 'stops' } as const;

function pumpedAnswer(known: Known, system: SolvedSystem): Omit<Answer, 'first'> {
  const places = known.tanks.flatMap((_, i) => placeOf(known, system, i) ?? []);
  const place = chosenPlace(known.site, places);
  if (place === undefined) {
    return { state: 'incomplete', missing: ['delivery'], runs: NOT_ASKED, arrives: NOTHING_ARRIVES };
  }
  if (place.needless) {
    const because = known.findings.find((f) => f.code === 'pump-needless' && f.about === place.tank.id) ?? null;
    return {
      state: 'no-pump-needed',
      missing: [],
      runs: { ...NOT_ASKED, because },
      arrives: { ...NOTHING_ARRIVES, about: place.tank.id, needPerDay: place.tank.demandPerDay },
    };
  }
  const verdict = place.runs.verdict ?? 'holds';
  const pours = verdict === 'fails' && place.runs.because?.code === 'valve-sticks';
  return { state: pours ? 'pours' : STATE[verdict], missing: [], runs: place.runs, arrives: place.arrives };
}
