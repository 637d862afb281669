import { DIFFERENCE_DRAWS, differencesInDraws } from '../evaluation/evaluate/compare-drawn.ts';
import { evaluateInDraws } from '../evaluation/evaluate/evaluate.ts';
import type { DrawOrder } from '../evaluation/spread/samples.ts';
import type { UnitSystem } from '../plan/model/plan.ts';
import { ReliefSource } from '../relief/levels/relief-source.ts';
import { type TerrainCharacter, terrainCharacter } from '../relief/levels/terrain-character.ts';
import { areaContours } from '../relief/tiles/area-contours.ts';
import { contourTile } from '../relief/tiles/contour-tile.ts';
import { reliefTile } from '../relief/tiles/relief-tile.ts';
import { slopeTile } from '../relief/tiles/slope-tile.ts';
import { proposeRoute } from '../siting/lines/propose-route.ts';
import { takeHeights } from '../terrain/clip/field-heights.ts';
import type { GridTerrain } from '../terrain/ground/ground-window.ts';
import type { OpenedGrid } from '../terrain/open/opened-grid.ts';
import { beatOfPlan, diagnosePlan } from './diagnosis-service.ts';
import type { Answer, Question, ToBitmap } from './messages.ts';
import { openTerrainFiles } from './open-terrain-files.ts';
import type { Handlers, Job } from './serve.ts';
import { sitingService } from './siting-service.ts';

type TerrainKind =
  | 'open-terrain'
  | 'ground-along'
  | 'ground-at'
  | 'propose-route'
  | 'reach-map'
  | 'reach-tile'
  | 'reach-at'
  | 'reach-line'
  | 'site-systems'
  | 'take-heights'
  | 'reckon'
  | 'compare'
  | 'diagnose'
  | 'beat-course'
  | 'relief-tile'
  | 'slope-tile'
  | 'contour-tile'
  | 'area-contours';

interface Opened {
  readonly terrain: GridTerrain;
  readonly files: readonly OpenedGrid[];
  readonly relief: ReliefSource;
  /** Looked at once, with the first tile. */
  character: Promise<TerrainCharacter> | null;
}

/** Steps between contours stay above this many standard deviations of the DEM's own noise. */
const NOISE_CLEARANCE = 2;

/** Answers about one terrain: the one this worker opened last. */
export function terrainService(toBitmap: ToBitmap): Pick<Handlers, TerrainKind> {
  let opened: Opened | null = null;
  const current = (): Opened => {
    if (!opened) throw new Error('terrain: found none, expected one opened before');
    return opened;
  };
  return {
    'open-terrain': async (question, job) => {
      const result = await openTerrainFiles(question, job);
      if (result.kind !== 'opened') return result;
      const { terrain, opened: files } = result.files;
      opened = { terrain, files, relief: new ReliefSource(result.files.grids), character: null };
      return { kind: 'opened', about: result.files.terrain.about };
    },
    'ground-along': ({ line }, job) => current().terrain.groundAlong(line, job.signal),
    'ground-at': ({ positions }, job) => current().terrain.groundAt(positions, job.signal),
    'propose-route': (request, job) => propose(current().terrain, request, job),
    ...sitingService(() => current().terrain, toBitmap),
    'take-heights': (wish, job) => takeHeights(current().files, wish, job.signal),
    reckon,
    compare,
    diagnose: diagnosePlan,
    'beat-course': (question, job) => beatOfPlan(question, job, pause),
    'relief-tile': async ({ tile, colours, size }, job) => {
      const ground = current();
      const spec = { tile, colours, size };
      const pixels = await reliefTile(ground.relief, await characterOf(ground), spec, job.signal);
      return toBitmap(pixels, size);
    },
    'slope-tile': async (spec, job) => toBitmap(await slopeTile(current().relief, spec, job.signal), spec.size),
    'contour-tile': (question, job) => contours(current(), question, job),
    'area-contours': ({ bounds, units }, job) => contoursOnPaper(current(), { bounds, units }, job),
  };
}

function characterOf(opened: Opened): Promise<TerrainCharacter> {
  opened.character ??= terrainCharacter(opened.relief);
  return opened.character;
}

/** Lets messages in, such as word of a stop. */
const pause = () => new Promise<void>((go) => setTimeout(go, 0));

/** Reckons a plan by draws, telling how far it has come and stopping when told to. */
async function reckon({ plan, ground, order }: Question<'reckon'>, job: Job): Promise<Answer<'reckon'>> {
  return inDraws(evaluateInDraws(plan, ground, order), order, job);
}

/** Draws two plans together. */
async function compare({ one, other }: Question<'compare'>, job: Job): Promise<Answer<'compare'>> {
  return inDraws(differencesInDraws(one, other, DIFFERENCE_DRAWS), DIFFERENCE_DRAWS, job);
}

/** Takes draws to their end, telling how far they have come and stopping when told to. */
async function inDraws<T>(steps: Generator<number, T>, { count }: DrawOrder, job: Job): Promise<T> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    job.progress({ done: step.value, of: count });
    await pause();
    job.signal.throwIfAborted();
  }
}

/** Tells after each stretch of the search how many ways it has followed so far, and lets word of a stop arrive. */
function propose(terrain: GridTerrain, request: Question<'propose-route'>, job: Job): Promise<Answer<'propose-route'>> {
  let done = 0;
  return proposeRoute(request, terrain, {
    signal: job.signal,
    pause,
    onProgress: (followed) => {
      done += followed;
      job.progress({ done, of: 0 });
    },
  });
}

async function contours(
  opened: Opened,
  { tile, units }: Question<'contour-tile'>,
  job: Job,
): Promise<Answer<'contour-tile'>> {
  const spec = { tile, ...stepsOf(opened, units) };
  const drawn = await contourTile(opened.relief, await characterOf(opened), spec, job.signal);
  return { ...drawn, data: drawn.data.slice().buffer };
}

async function contoursOnPaper(
  opened: Opened,
  { bounds, units }: Question<'area-contours'>,
  job: Job,
): Promise<Answer<'area-contours'>> {
  const spec = { bounds, ...stepsOf(opened, units) };
  return areaContours(opened.relief, await characterOf(opened), spec, job.signal);
}

function stepsOf({ terrain }: Opened, units: UnitSystem) {
  const unit = units === 'us' ? 'foot' : 'metre';
  return { unit, finest: NOISE_CLEARANCE * terrain.about.accuracy.nugget } as const;
}
