import type { Differences, GroundedSide } from '../evaluation/evaluate/compare-drawn.ts';
import type { Ground } from '../evaluation/evaluate/evaluate.ts';
import type { Evaluation } from '../evaluation/result/evaluation.ts';
import type { DrawOrder } from '../evaluation/spread/samples.ts';
import type { Position } from '../geodesy/position.ts';
import type { Plan, UnitSystem } from '../plan/model/plan.ts';
import type { PictureAbout } from '../relief/levels/picture-about.ts';
import type { TileAddress } from '../relief/levels/tile-address.ts';
import type { AreaBounds, AreaContour } from '../relief/tiles/area-contours.ts';
import type { TooFar } from '../relief/tiles/contour-tile.ts';
import type { ReliefColours } from '../relief/tiles/relief-palette.ts';
import type { SlopeColours } from '../relief/tiles/slope-palette.ts';
import type { RouteProposal, RouteRequest } from '../siting/lines/route-proposal.ts';
import type { NoReach } from '../siting/reach/reach-of-plan.ts';
import type { ReachTileSpec } from '../siting/reach/reach-tile.ts';
import type { ReachReading } from '../siting/reach/reach-view.ts';
import type { AvoidedArea } from '../siting/reach/site-window.ts';
import type { SiteOutcome } from '../siting/systems/propose-systems.ts';
import type { SiteRequest } from '../siting/systems/site-request.ts';
import type { TakenOutcome, TakeWish } from '../terrain/clip/field-heights.ts';
import type { OpenAnswers, Question as TerrainQuestion } from '../terrain/georeference/open-answers.ts';
import type { GroundLine, GroundPoint, TerrainAbout } from '../terrain/grid/ground.ts';
import type { HeightsRecord } from '../terrain/open/opened-grid.ts';
import type { Problem } from '../units/outcome.ts';
import type { Metres } from '../units/quantity.ts';
import type { BeatOfPlan, DiagnosisOfPlan, DiagnosisQuestion } from './diagnosis-service.ts';

/** Makes a square picture of pixels, four bytes each, not premultiplied; the picture is, as the map library draws it. */
export type ToBitmap = (pixels: Uint8ClampedArray<ArrayBuffer>, size: number) => Promise<ImageBitmap>;

export const toBitmap: ToBitmap = (pixels, size) =>
  createImageBitmap(new ImageData(pixels, size, size), {
    premultiplyAlpha: 'premultiply',
    colorSpaceConversion: 'none',
  });

/** A file from disk by its name; a blob crosses to the worker without being copied or read. */
export interface NamedBlob {
  readonly name: string;
  readonly blob: Blob;
}

/** A file at an address that the user typed; the worker asks there for the parts it needs. */
export interface NamedAddress {
  readonly name: string;
  readonly address: string;
}

export type ElevationFile = NamedBlob | NamedAddress;

/** Something only the user can say about a file, such as which band holds the heights. */
export type FileQuestion = TerrainQuestion;

export type FileAnswer = Omit<OpenAnswers, 'memory' | 'signal'>;

/** Answers by file name. */
export type FileAnswers = Readonly<Record<string, FileAnswer>>;

export type OpenResult<About> =
  | { readonly kind: 'opened'; readonly about: About }
  | { readonly kind: 'question'; readonly questions: readonly FileQuestion[] }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] };

export interface ReachQuestion {
  readonly plan: Plan;
  readonly ground: Ground;
  readonly margin: Metres;
  readonly mostCells: number;
  readonly avoid: readonly AvoidedArea[];
  /** Units in which the classes have round figures. */
  readonly units: UnitSystem;
}

/** A part of a picture as it is wanted: the box around places, in so many pixels at most. */
export interface PictureWish {
  readonly around: readonly Position[];
  readonly margin: Metres;
  readonly mostPixels: number;
}

/** A part of a picture as a JPEG, with its world file and the code of its CRS. */
export interface TakenPicture {
  readonly jpeg: ArrayBuffer;
  readonly world: string;
  readonly crs: number;
}

/** A reach map that the worker keeps. */
export interface ReachAbout {
  readonly kind: 'map';
  readonly key: number;
  /** Flows that part its classes, m³/s. */
  readonly edges: readonly number[];
  /** What has to arrive, m³/s; null where nobody has said. */
  readonly need: number | null;
  /** Width of a cell looked at, m, and how many of the file's own it is wide. */
  readonly cell: Metres;
  readonly coarser: number;
}

/** Every message to the worker by name: [question, answer]. */
export interface Messages {
  'open-terrain': [
    {
      readonly files: readonly ElevationFile[];
      readonly answers: FileAnswers;
      readonly accuracy: string | null;
      /** What files that were taken along are from, by their own names. */
      readonly recorded?: Readonly<Record<string, HeightsRecord>>;
    },
    OpenResult<TerrainAbout>,
  ];
  'ground-along': [{ readonly line: readonly Position[] }, GroundLine];
  'ground-at': [{ readonly positions: readonly Position[] }, readonly GroundPoint[]];
  'propose-route': [RouteRequest, RouteProposal];
  /** What would arrive on every cell around a plan's pump; kept by the worker to be looked at until the next one. */
  'reach-map': [ReachQuestion, ReachAbout | { readonly kind: 'none'; readonly why: NoReach }];
  'reach-tile': [ReachTileSpec, ImageBitmap];
  'reach-at': [{ readonly position: Position }, ReachReading | null];
  'reach-line': [
    { readonly position: Position },
    { readonly vertices: readonly Position[]; readonly vented: boolean } | null,
  ];
  'site-systems': [SiteRequest, SiteOutcome];
  /** The ground around lines as files to take along. */
  'take-heights': [TakeWish, TakenOutcome];
  /** The part of the picture around places; null where there is none, or where its CRS has no code. */
  'take-picture': [PictureWish, TakenPicture | null];
  /** The answer by draws: by those that count, or by others that were asked for. */
  reckon: [{ readonly plan: Plan; readonly ground: Ground; readonly order: DrawOrder }, Evaluation];
  /** What the second of two plans has more, draw by draw; null where that cannot be told. */
  compare: [{ readonly one: GroundedSide; readonly other: GroundedSide }, Differences | null];
  /** What is likely wrong with the pump of a plan. */
  diagnose: [DiagnosisQuestion, DiagnosisOfPlan];
  /** Simulated beats of the pump of a plan. */
  'beat-course': [Pick<DiagnosisQuestion, 'plan' | 'ground'>, BeatOfPlan];
  'relief-tile': [{ readonly tile: TileAddress; readonly colours: ReliefColours; readonly size: number }, ImageBitmap];
  'slope-tile': [{ readonly tile: TileAddress; readonly colours: SlopeColours; readonly size: number }, ImageBitmap];
  'contour-tile': [
    { readonly tile: TileAddress; readonly units: UnitSystem },
    { readonly data: ArrayBuffer; readonly interval: number; readonly tooFar: TooFar },
  ];
  'area-contours': [{ readonly bounds: AreaBounds; readonly units: UnitSystem }, readonly AreaContour[]];
  /** A picture with the files that say where it lies. */
  'open-picture': [{ readonly files: readonly NamedBlob[]; readonly answers: FileAnswers }, OpenResult<PictureAbout>];
  'picture-tile': [{ readonly tile: TileAddress; readonly size: number }, ImageBitmap];
}

export type MessageKind = keyof Messages;
export type Question<K extends MessageKind> = Messages[K][0];
export type Answer<K extends MessageKind> = Messages[K][1];

/** From the page: a question with the number its answer will carry, or word that an answer is no longer wanted. */
export type ToWorker =
  | { [K in MessageKind]: { readonly id: number; readonly kind: K; readonly question: Question<K> } }[MessageKind]
  | { readonly id: number; readonly kind: 'cancel' };

/** How far a long job has come; `of` is 0 while the whole is unknown. */
export interface Progress {
  readonly done: number;
  readonly of: number;
  /** Bytes that came over the network so far, where some do. */
  readonly bytes?: number;
}

/** From the worker: the answer, a failure in one sentence with the problem behind it if one is known, or a sign of life. */
export type FromWorker =
  | { readonly id: number; readonly kind: 'answer'; readonly answer: Answer<MessageKind> }
  | { readonly id: number; readonly kind: 'failed'; readonly reason: string; readonly problem?: Problem }
  | { readonly id: number; readonly kind: 'cancelled' }
  | { readonly id: number; readonly kind: 'progress'; readonly progress: Progress };
