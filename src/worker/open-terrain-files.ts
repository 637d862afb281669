import { projectionOf } from '../geodesy/projection.ts';
import type { HeightAccuracy, Terrain, TerrainAbout } from '../terrain/ground.ts';
import { accuracyOfClass } from '../terrain/height-accuracy.ts';
import type { Question as TerrainQuestion } from '../terrain/open-answers.ts';
import { openElevation } from '../terrain/open-elevation.ts';
import type { OpenedGrid } from '../terrain/opened-grid.ts';
import { type PlacedGrid, placedGrid } from '../terrain/placed-grid.ts';
import { terrainFromGrids } from '../terrain/terrain-from-grids.ts';
import type { TerrainSource } from '../terrain/terrain-source.ts';
import type { Outcome, Problem } from '../units/outcome.ts';
import { blobSource } from './blob-source.ts';
import type { OpenResult, Question } from './messages.ts';
import type { Job } from './serve.ts';

export interface OpenedTerrainFiles {
  readonly terrain: Terrain;
  readonly grids: readonly PlacedGrid[];
}

type Opening =
  | { readonly kind: 'opened'; readonly files: OpenedTerrainFiles }
  | Exclude<OpenResult<never>, { kind: 'opened' }>;

/** Opens every file, gathers what only the user can say, and makes one terrain of them. */
export async function openTerrainFiles(question: Question<'open-terrain'>, job: Job): Promise<Opening> {
  const sources: TerrainSource[] = [];
  const questions: TerrainQuestion[] = [];
  const problems: Problem[] = [];
  for (const [at, { name, blob }] of question.files.entries()) {
    job.progress({ done: at, of: question.files.length });
    const answers = { ...question.answers[name], signal: job.signal };
    const opened = await openElevation(blobSource(name, blob), answers);
    if (opened.kind === 'opened') sources.push(sourceOf(name, opened.value));
    else if (opened.kind === 'question') questions.push(opened.question);
    else problems.push(...opened.problems);
  }
  if (problems.length > 0) return { kind: 'refused', problems };
  if (questions.length > 0) return { kind: 'question', questions };
  const terrain = await terrainOf(sources, question.accuracy);
  if (!terrain.ok) return { kind: 'refused', problems: terrain.problems };
  return { kind: 'opened', files: { terrain: terrain.value, grids: await placedGrids(sources) } };
}

function sourceOf(file: string, grid: OpenedGrid): TerrainSource {
  const { verticalUnit, verticalDatum, notes } = grid.facts;
  return { file, grid, verticalUnit, verticalDatum, notes };
}

/** The class the user chose needs the cell of the terrain, so the terrain is made once to learn it. */
async function terrainOf(sources: readonly TerrainSource[], chosen: string | null): Promise<Outcome<Terrain>> {
  const inferred = await terrainFromGrids(sources);
  if (!inferred.ok || chosen === null) return inferred;
  const accuracy = chosenAccuracy(inferred.value.about, chosen);
  if (accuracy) return terrainFromGrids(sources, { accuracy });
  const problem = { code: 'accuracy-unknown', path: 'terrain.accuracy', found: chosen, expected: 'a class of heights' };
  return { ok: false, problems: [problem] };
}

function chosenAccuracy(about: TerrainAbout, chosen: string): HeightAccuracy | null {
  const cell = Math.sqrt(about.cell.width * about.cell.height);
  return accuracyOfClass(chosen, { cell, quantum: about.accuracy.quantum ?? 0 });
}

async function placedGrids(sources: readonly TerrainSource[]): Promise<PlacedGrid[]> {
  const placed: PlacedGrid[] = [];
  for (const { grid } of sources) {
    const projection = await projectionOf(grid.crs);
    if (projection.ok) placed.push(placedGrid(grid, projection.value));
  }
  return placed;
}
