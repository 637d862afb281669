import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { ANSWER_DRAWS, type DrawOrder } from '../../evaluation/spread/samples.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Plan, UnitSystem } from '../../plan/model/plan.ts';
import type { TileAddress } from '../../relief/levels/tile-address.ts';
import type { AreaBounds, AreaContour } from '../../relief/tiles/area-contours.ts';
import type { RouteProposal, RouteRequest } from '../../siting/lines/route-proposal.ts';
import type { ReachTileSpec } from '../../siting/reach/reach-tile.ts';
import type { SiteOutcome } from '../../siting/systems/propose-systems.ts';
import type { SiteRequest } from '../../siting/systems/site-request.ts';
import type { TakenOutcome, TakeWish } from '../../terrain/clip/field-heights.ts';
import type { GroundLine, GroundPoint, Terrain, TerrainAbout } from '../../terrain/grid/ground.ts';
import type { HeightsRecord } from '../../terrain/open/opened-grid.ts';
import type { Problem } from '../../units/outcome.ts';
import type { BeatOfPlan, DiagnosisOfPlan, DiagnosisQuestion } from '../../worker/diagnosis-service.ts';
import type {
  Answer,
  ElevationFile,
  FileAnswers,
  FileQuestion,
  NamedBlob,
  OpenResult,
  Progress,
  Question,
  ReachQuestion,
} from '../../worker/messages.ts';
import type { ElevationInput } from './elevation-input.ts';
import type { ContourTile, ReliefLook, ReliefTiles, SlopeLook } from './tile-service.ts';
import { type Spawn, spawnWorker, WorkerLink } from './worker-link.ts';

/** A DEM opened in a worker of its own: ground for the evaluation, tiles for the map. */
export interface OpenedTerrain extends Terrain, ReliefTiles {
  /** Reckons a plan by draws: by those that count where no others are asked for. */
  reckon(plan: Plan, ground: Ground, signal: AbortSignal, order?: DrawOrder): Promise<Evaluation>;
  /** What the second of two plans has more, draw by draw; null where that cannot be told. */
  compare(question: Question<'compare'>, signal: AbortSignal): Promise<Answer<'compare'>>;
  /** What is likely wrong with the pump of a plan. */
  diagnose(question: DiagnosisQuestion, signal: AbortSignal): Promise<DiagnosisOfPlan>;
  /** Simulated beats of the pump of a plan. */
  beatCourse(question: Pick<DiagnosisQuestion, 'plan' | 'ground'>, watching: Watching): Promise<BeatOfPlan>;
  /** Looks for a line to propose; takes seconds on large ground. */
  proposeRoute(request: RouteRequest, watching: Watching): Promise<RouteProposal>;
  /** What would arrive on every cell around a plan's pump; its tiles and readings are those of the newest map. */
  reachMap(question: ReachQuestion, watching: Watching): Promise<Answer<'reach-map'>>;
  reachTile(spec: ReachTileSpec, signal: AbortSignal): Promise<ImageBitmap>;
  reachAt(position: Position): Promise<Answer<'reach-at'>>;
  reachLine(position: Position): Promise<Answer<'reach-line'>>;
  /** Places for the pump and whole systems; takes seconds on large ground. */
  siteSystems(request: SiteRequest, watching: Watching): Promise<SiteOutcome>;
  /** The ground around lines as files to take along. */
  takeHeights(wish: TakeWish): Promise<TakenOutcome>;
  /** Contour lines of an area, for paper. */
  areaContours(bounds: AreaBounds, units: UnitSystem): Promise<readonly AreaContour[]>;
  /** Ends its worker; calls made afterwards fail. */
  close(): void;
}

/** How a long question is followed and stopped. */
export interface Watching {
  readonly signal: AbortSignal;
  readonly onProgress: (progress: Progress) => void;
}

/** What came of opening files: never an exception, except that of an aborted signal. */
export type Opening<T> =
  | { readonly kind: 'opened'; readonly value: T }
  | { readonly kind: 'question'; readonly questions: readonly FileQuestion[] }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] };

export interface OpenOptions {
  readonly answers?: FileAnswers;
  /** What files that were taken along are from, by their own names. */
  readonly recorded?: Readonly<Record<string, HeightsRecord>>;
  /** Accuracy class the user chose; left out, it is inferred from the file. */
  readonly accuracy?: string | null;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
  readonly spawn?: Spawn;
}

/**
 * Opens a DEM in a fresh worker. A terrain opened before has its own worker and is not touched by a load that fails;
 * close it once the new one is in place.
 */
export async function openTerrain(
  files: readonly ElevationInput[],
  answers?: FileAnswers,
  options: OpenOptions = {},
): Promise<Opening<OpenedTerrain>> {
  const question = {
    files: files.map((file): ElevationFile => (file instanceof File ? namedBlob(file) : file)),
    answers: answers ?? options.answers ?? {},
    accuracy: options.accuracy ?? null,
    ...(options.recorded && { recorded: options.recorded }),
  };
  const link = new WorkerLink('open-terrain', question, options.spawn ?? spawnWorker);
  const result = await link.open(options.signal, options.onProgress);
  return opening(result, link, (about) => new TerrainInWorker(about, link));
}

export function namedBlob(file: File): NamedBlob {
  return { name: file.name, blob: file };
}

/** Keeps the link of what opened, closes the others. */
export function opening<About, T>(
  result: OpenResult<About>,
  link: { close(): void },
  wrap: (about: About) => T,
): Opening<T> {
  if (result.kind === 'opened') return { kind: 'opened', value: wrap(result.about) };
  link.close();
  return result;
}

class TerrainInWorker implements OpenedTerrain {
  readonly about: TerrainAbout;
  readonly key: string;
  readonly #link: WorkerLink<'open-terrain'>;

  constructor(about: TerrainAbout, link: WorkerLink<'open-terrain'>) {
    this.about = about;
    this.key = link.key;
    this.#link = link;
  }

  groundAlong(line: readonly Position[], signal?: AbortSignal): Promise<GroundLine> {
    return this.#link.ask('ground-along', { line }, signal);
  }

  groundAt(positions: readonly Position[], signal?: AbortSignal): Promise<readonly GroundPoint[]> {
    return this.#link.ask('ground-at', { positions }, signal);
  }

  reckon(plan: Plan, ground: Ground, signal: AbortSignal, order: DrawOrder = ANSWER_DRAWS): Promise<Evaluation> {
    return this.#link.ask('reckon', { plan, ground, order }, signal);
  }

  compare(question: Question<'compare'>, signal: AbortSignal): Promise<Answer<'compare'>> {
    return this.#link.ask('compare', question, signal);
  }

  diagnose(question: DiagnosisQuestion, signal: AbortSignal): Promise<DiagnosisOfPlan> {
    return this.#link.ask('diagnose', question, signal);
  }

  beatCourse(
    question: Pick<DiagnosisQuestion, 'plan' | 'ground'>,
    { signal, onProgress }: Watching,
  ): Promise<BeatOfPlan> {
    return this.#link.ask('beat-course', question, signal, onProgress);
  }

  proposeRoute(request: RouteRequest, { signal, onProgress }: Watching): Promise<RouteProposal> {
    return this.#link.ask('propose-route', request, signal, onProgress);
  }

  reachMap(question: ReachQuestion, { signal, onProgress }: Watching): Promise<Answer<'reach-map'>> {
    return this.#link.ask('reach-map', question, signal, onProgress);
  }

  reachTile(spec: ReachTileSpec, signal: AbortSignal): Promise<ImageBitmap> {
    return this.#link.ask('reach-tile', spec, signal);
  }

  reachAt(position: Position): Promise<Answer<'reach-at'>> {
    return this.#link.ask('reach-at', { position });
  }

  reachLine(position: Position): Promise<Answer<'reach-line'>> {
    return this.#link.ask('reach-line', { position });
  }

  siteSystems(request: SiteRequest, { signal, onProgress }: Watching): Promise<SiteOutcome> {
    return this.#link.ask('site-systems', request, signal, onProgress);
  }

  reliefTile(tile: TileAddress, look: ReliefLook, signal: AbortSignal): Promise<ImageBitmap> {
    return this.#link.ask('relief-tile', { tile, colours: look.colours, size: look.size }, signal);
  }

  slopeTile(tile: TileAddress, look: SlopeLook, signal: AbortSignal): Promise<ImageBitmap> {
    return this.#link.ask('slope-tile', { tile, colours: look.colours, size: look.size }, signal);
  }

  contourTile(tile: TileAddress, units: UnitSystem, signal: AbortSignal): Promise<ContourTile> {
    return this.#link.ask('contour-tile', { tile, units }, signal);
  }

  areaContours(bounds: AreaBounds, units: UnitSystem): Promise<readonly AreaContour[]> {
    return this.#link.ask('area-contours', { bounds, units });
  }

  takeHeights(wish: TakeWish): Promise<TakenOutcome> {
    return this.#link.ask('take-heights', wish);
  }

  close(): void {
    this.#link.close();
  }
}
