import { evaluateAtRest } from '../../evaluation/evaluate/evaluate.ts';
import { groundOfPlan } from '../../evaluation/evaluate/ground-of-plan.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import { sourceFlow, usableShare } from '../../evaluation/site/source-yield.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import type { Plan, SourcePoint, TankPoint } from '../../plan/model/plan.ts';
import { driveLengths } from '../../ram/cycle/drive-length.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import { DAY_S } from '../../units/factor.ts';
import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import { type FallingPipe, fallingPipe } from '../fields/falling-pipe.ts';
import { type PlaceRefusal, pumpPlaces } from '../places/pump-places.ts';
import { readSiteWindow, type SiteWindow } from '../reach/site-window.ts';
import { type ValleyLine, valleyLine } from '../valley/valley-line.ts';
import { choosePlaces, type RankedPlace, rankPlaces, type TankAim } from './choose-places.ts';
import { bestFront, namesOf } from './front.ts';
import { boreGuess, holdsOrMeasure, type JudgedSystem, judgeSystem, sketchOf, systemsOn } from './judge-system.ts';
import { placeAtLift } from './place-at-lift.ts';
import { waysToTank } from './reverse-ways.ts';
import { type Judged, mostWater, SearchNotes } from './search-notes.ts';
import type { SiteAnswer, SitePlace, SiteSystem, ValleyStrip } from './site-answer.ts';
import type { SiteRequest } from './site-request.ts';
import { supplyLay, systemLines } from './system-lines.ts';

/** What a search may tell while it goes on. */
export interface SiteJob {
  readonly signal?: AbortSignal;
  /** Told the share that is done. */
  readonly onProgress?: (share: number) => void;
  readonly pause?: () => Promise<void>;
}

export type SiteOutcome =
  | { readonly kind: 'answer'; readonly answer: SiteAnswer }
  | { readonly kind: 'no-source' }
  | { readonly kind: 'no-yield' }
  | { readonly kind: 'no-height'; readonly at: { readonly lon: number; readonly lat: number } };

/** How far along the stream a pump is looked for. Common practice, no source. */
const FARTHEST: Metres = 1200;

/** Places for the pump and whole systems for a source, each judged by the planner's own evaluation. */
export async function proposeSystems(
  request: SiteRequest,
  terrain: GridTerrain,
  job: SiteJob = {},
): Promise<SiteOutcome> {
  const source = request.base.points.find((p): p is SourcePoint => p.role === 'source');
  if (!source) return { kind: 'no-source' };
  const read = sourceFlow(request.base.yieldReadings);
  if (!read) return { kind: 'no-yield' };
  const standing = request.base.points.filter((p): p is TankPoint => p.role === 'tank' && p.standing !== 'set-aside');
  const around = [source.position, ...standing.map((t) => t.position)];
  const { margin, mostCells, avoid } = request;
  const window = await readSiteWindow(terrain, { around, margin, mostCells, avoid }, job.signal);
  if (window.kind === 'no-height') return window;
  const search = new SystemSearch(
    request,
    terrain,
    window.site,
    source,
    read.flow * usableShare(request.base).share,
    job,
  );
  return { kind: 'answer', answer: await search.run(standing) };
}

class SystemSearch {
  readonly #request: SiteRequest;
  readonly #terrain: GridTerrain;
  readonly #site: SiteWindow;
  readonly #source: SourcePoint;
  readonly #sourceCell: number;
  readonly #water: Metres;
  readonly #intake: CubicMetresPerSecond;
  readonly #job: SiteJob;
  readonly #notes: SearchNotes;

  constructor(
    request: SiteRequest,
    terrain: GridTerrain,
    site: SiteWindow,
    source: SourcePoint,
    intake: CubicMetresPerSecond,
    job: SiteJob,
  ) {
    this.#request = request;
    this.#terrain = terrain;
    this.#site = site;
    this.#source = source;
    this.#intake = intake;
    this.#job = job;
    this.#sourceCell = site.cellAt(source.position) ?? 0;
    this.#notes = new SearchNotes(site);
    this.#water = (site.ground.heights[this.#sourceCell] as number) + source.waterLevel;
  }

  async run(standing: readonly TankPoint[]): Promise<SiteAnswer> {
    const { ground, window } = this.#site;
    this.#notes.ofGround();
    const valley = valleyLine(ground, window.block.known, this.#sourceCell, FARTHEST);
    await this.#turn(0.3);
    const seed = { cell: this.#sourceCell, level: this.#water };
    const pipe = fallingPipe(ground, seed, supplyLay);
    await this.#turn(0.4);
    const own = this.#request.base.pump?.driveBore;
    const guessed = own ?? boreGuess(this.#intake);
    const tanks = this.#tanks(standing);
    const first = await this.#look({ valley, pipe, tanks, bore: guessed });
    const smaller =
      own === undefined && first.judged.every(({ found }) => found.length === 0) ? boreTried(first.judged) : null;
    // The pumps that suit may be smaller than the first guess: their drive pipes keep their rules of length on less fall.
    const second =
      smaller !== null && smaller < guessed ? await this.#look({ valley, pipe, tanks, bore: smaller }) : null;
    const better = second?.judged.some(({ found }) => found.length > 0) ? second : first;
    if (better.places === 0) this.#notes.noPlace(better.refusals, valley, this.#water);
    return this.#answer(better.judged, this.#strip(valley, better.bore), better.refusals);
  }

  /** Places for a pump of a drive bore, and what comes of the systems on the best of them. */
  async #look({ valley, pipe, tanks, bore }: LookAsked): Promise<Looked> {
    const { ground } = this.#site;
    const accuracy = accuracyFor(this.#request.base, this.#terrain.about);
    const settings = { ...this.#request.settings, confidence: this.#request.base.confidence };
    const source = { cell: this.#sourceCell, water: this.#water };
    const { places, refusals } = pumpPlaces({ ground, valley, pipe, source, bore, accuracy, settings });
    await this.#turn(0.6);
    const pumps = places.map((place) => place.pump);
    const aims =
      pumps.length === 0
        ? []
        : tanks.map((tank): TankAim => {
            const cell = this.#site.cellAt(tank.position) ?? this.#sourceCell;
            return {
              ways: waysToTank(ground, cell, pumps),
              outlet: (ground.heights[cell] as number) + tank.inletHeight,
            };
          });
    await this.#turn(0.8);
    const ranked = rankPlaces(places, ground, aims, settings.wasteValveHeight);
    if (places.length > 0 && tanks.length > 0 && ranked.length === 0) this.#notes.add('tank-cut-off', {});
    const { mostPlaces, apart } = this.#request;
    const limits = { most: mostPlaces, apart, confidence: settings.confidence };
    const chosen = choosePlaces(ranked, ground, limits);
    return { judged: await this.#judge(chosen, tanks, pipe), refusals, places: places.length, bore };
  }

  async #turn(share: number): Promise<void> {
    this.#job.onProgress?.(share);
    await this.#job.pause?.();
    this.#job.signal?.throwIfAborted();
  }

  #tanks(standing: readonly TankPoint[]): readonly TankPoint[] {
    const { ground } = this.#site;
    const above = standing.filter((tank) => {
      const z = ground.heights[this.#site.cellAt(tank.position) ?? 0] as number;
      if (z + tank.inletHeight > this.#water) return true;
      this.#notes.add('tank-below-source', { tank: tank.name, below: this.#water - z - tank.inletHeight });
      return false;
    });
    if (standing.length > 0) return above;
    const lift = this.#request.lift ?? USUAL_LIFT;
    if (this.#request.lift === null) this.#notes.add('lift-taken', { lift });
    const found = placeAtLift(this.#site, this.#sourceCell, this.#water + lift);
    if (!found) this.#notes.add('lift-not-found', { lift });
    return found ? [found] : [];
  }

  /** Fall against length, and where the least fall and both rules of a drive pipe's length are kept. */
  #strip({ cells, at, level }: ValleyLine, bore: Metres): ValleyStrip {
    const fall = level.map((z) => this.#water - z);
    const fits: { from: Metres; to: Metres }[] = [];
    const least = criterion('fall-least').value;
    let open: Metres | null = null;
    for (let i = 0; i < at.length; i++) {
      const net = (fall[i] as number) - this.#request.settings.floodMark - this.#request.settings.wasteValveHeight;
      const rule = net >= least ? driveLengths(bore, net).both : null;
      const here = at[i] as number;
      const fit = rule !== null && here >= rule.least;
      if (fit && open === null) open = here;
      if (open !== null && (!fit || i === at.length - 1)) {
        fits.push({ from: open, to: here });
        open = null;
      }
    }
    return { at, fall, fits, line: cells.flatMap((cell) => this.#site.positionOf(cell) ?? []) };
  }

  async #judge(chosen: readonly RankedPlace[], tanks: readonly TankPoint[], pipe: FallingPipe): Promise<Judged[]> {
    const { base, settings, ownPipe } = this.#request;
    const own = ownPipe && { id: ownPipe.pipe.replaceAll('.', '-'), kind: 'row' as const, row: ownPipe.pipe };
    const judged: Judged[] = [];
    for (const [k, ranked] of chosen.entries()) {
      const tank = tanks[ranked.tank];
      if (!tank) continue;
      if (ownPipe && ranked.line.length > ownPipe.length) continue;
      const { place, line } = ranked;
      const wish = { place, source: this.#source, sourceCell: this.#sourceCell, tank, line, pipe };
      const lines = systemLines(this.#site, { ...wish, tank: this.#roomy(tank) }, settings);
      if (!lines) continue;
      const sketch = sketchOf(base, lines);
      if (!sketch) continue;
      const ground = await groundOfPlan(sketch, this.#terrain, this.#job.signal);
      const asked = {
        fall: place.fall,
        intake: this.#intake,
        supplyLength: place.supply,
        ownPipe: own,
        freeboard: settings.freeboard,
        inletHeight: settings.inletHeight,
        groundFor: (plan: Plan) => groundOfPlan(plan, this.#terrain, this.#job.signal),
      };
      const { found, failed } = await systemsOn(base, lines, ground, asked);
      judged.push({ ranked, tank, found, failed });
      await this.#turn(0.8 + (0.2 * (k + 1)) / chosen.length);
    }
    return judged;
  }

  /** A tank that holds what practice asks for, where the need is known; one that the user has keeps its size if it is larger. */
  #roomy(tank: TankPoint): TankPoint {
    const need = this.#request.base.herd.reduce((sum, g) => sum + (g.kind === 'own' ? g.needPerDay * g.count : 0), 0);
    return { ...tank, volume: Math.max(tank.volume, (need * criterion('storage-least').value) / DAY_S) };
  }

  #answer(judged: readonly Judged[], valley: ValleyStrip, refusals: readonly PlaceRefusal[]): SiteAnswer {
    const places = judged.flatMap((each) => this.#place(each, judged, refusals));
    const all = judged.flatMap(({ found, tank }, place) => found.map((system) => ({ system, tank, place })));
    const priced = all.length > 0 && all.every(({ system }) => system.cost !== null);
    const weighed = all.map((each) => ({
      ...each,
      water: each.system.delivery.likely,
      sure: each.system.delivery.low,
      outlay: priced ? (each.system.cost ?? 0) : each.system.pipe,
    }));
    const front = bestFront(weighed);
    const rested = front.flatMap((each) => {
      const system = atRest(each.system);
      return system !== null && holdsOrMeasure(system) ? [{ ...each, system }] : [];
    });
    const names = namesOf(rested);
    const systems = rested.map(({ system, tank, place }, k): SiteSystem => {
      const { delivery, pipe, cost, runs, arrives, plan } = system;
      return { name: names[k] ?? 'between', delivery, pipe, cost, runs, arrives, place, tank: tank.name, plan };
    });
    if (systems.length === 0 && judged.length > 0) this.#notes.noSystem(judged, this.#intake);
    return { places, systems, valley, notes: this.#notes.all, outlay: priced ? 'cost' : 'metres' };
  }

  #place(each: Judged, judged: readonly Judged[], refusals: readonly PlaceRefusal[]): SitePlace[] {
    const { ranked } = each;
    const best = mostWater([...each.found, ...each.failed.filter((s) => s.runs !== 'fails')]) ?? mostWater(each.failed);
    const system = best && atRest({ ...best, plan: { ...best.plan, herd: [] } });
    const pump = this.#site.positionOf(ranked.place.pump);
    if (!system || !pump) return [];
    const { place } = ranked;
    return [
      {
        pump,
        ground: this.#site.ground.heights[place.pump] as number,
        standpipe: place.standpipe === null ? null : this.#site.positionOf(place.standpipe),
        fall: system.evaluation.pump?.fall ?? { low: 0, likely: 0, high: 0 },
        supply: system.evaluation.lines.find((l) => l.role === 'supply')?.slope ?? 0,
        drive: system.evaluation.lines.find((l) => l.role === 'drive')?.slope ?? 0,
        trench: place.drive.digging,
        depth: place.drive.digging > 0 ? place.drive.rise : 0,
        delivery: system.delivery,
        because: this.#notes.because(each, { judged, refusals, best }),
        plan: { ...best.plan, herd: this.#request.base.herd },
      },
    ];
  }
}

interface LookAsked {
  readonly valley: ValleyLine;
  readonly pipe: FallingPipe;
  readonly tanks: readonly TankPoint[];
  readonly bore: Metres;
}

interface Looked {
  readonly judged: readonly Judged[];
  readonly refusals: readonly PlaceRefusal[];
  /** Places that were found before the best were chosen. */
  readonly places: number;
  readonly bore: Metres;
}

/** The smallest drive bore among the pumps that were tried; null where none was. */
function boreTried(judged: readonly Judged[]): Metres | null {
  const bores = judged.flatMap(({ failed }) => failed.flatMap(({ plan }) => plan.pump?.driveBore ?? []));
  return bores.length === 0 ? null : Math.min(...bores);
}

/** Where no tank stands and no lift is given, water is looked for so far above the source. Common practice, no source. */
const USUAL_LIFT: Metres = 20;
/** The same with spreads by samples: what a reader of the plan will be told. */
function atRest(system: JudgedSystem): JudgedSystem | null {
  return judgeSystem(system.plan, system.ground, evaluateAtRest(system.plan, system.ground));
}
